"""A shop with one person of each role, one enrolled tablet, and the application around it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI

from server.app import build_app
from server.record.book_of_lines import Record, now_ms
from server.record.door_facts import Credential, Device
from server.record.keeping_devices import enrol_device
from server.record.keeping_secrets import keep_credential
from server.record.written import Written
from server.settings import Settings
from server.work.known_device import key_hash
from server.work.proving import hash_secret
from server.work.telling import told_line
from tests.record.laid_out import open_laid_out
from tests.security.caller import KEY, PERSON_OF, PHRASE, PIN, TABLET


def open_shop(folder: Path) -> tuple[FastAPI, Record]:
    """Make the application and its record; everybody has the same PIN, and the owner a pass phrase as well."""
    record = open_laid_out(folder, _fill)
    return build_app(Settings(data_folder=folder), record), record


def _fill(record: Record, folder: Path) -> None:
    pin, phrase = hash_secret(PIN), hash_secret(PHRASE)
    people = [
        {"kind": "person", "id": name, "name": f"{role} {name}", "roles": [role]} for role, name in PERSON_OF.items()
    ]
    secrets = [Credential(name, "pin", pin, 0) for name in PERSON_OF.values()]
    secrets.append(Credential(PERSON_OF["owner"], "password", phrase, 0))
    changes = [*map(keep_credential, secrets), enrol_device(Device(TABLET, "first bench", None, key_hash(KEY), 5))]
    lines = [told_line(person, now_ms()) for person in people]
    record.write(lambda _: Written(lambda _: None, lines=lines, changes=changes)).result()


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[tuple[FastAPI, Record]]:
    """The application and its record."""
    opened = open_shop(tmp_path)
    yield opened
    opened[1].close()


@pytest.fixture
def app(shop: tuple[FastAPI, Record]) -> FastAPI:
    """The application alone."""
    return shop[0]


@pytest.fixture
def record(shop: tuple[FastAPI, Record]) -> Record:
    """Its record alone."""
    return shop[1]
