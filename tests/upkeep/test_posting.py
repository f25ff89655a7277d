"""A letter goes over TLS to a server whose certificate an authority vouches for, or it does not go."""

import importlib
import ssl
from collections.abc import Iterator
from email.message import EmailMessage
from pathlib import Path

import pytest

from server.settings import Settings, read_settings
from server.upkeep.posting import NotPosted, post
from tests.upkeep.letterbox import Letterbox


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A mail server's certificate from the shop's own authority, which no machine trusts by itself."""
    command = importlib.import_module("server.commands.certificate")
    data = tmp_path / "data"
    assert command.run(["--data", str(data), "--name", "mail.works.example", "--address", "127.0.0.1"]) == 0
    return data / "certificate"


@pytest.fixture
def box(folder: Path) -> Iterator[Letterbox]:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(folder / "server.pem")
    made = Letterbox(context)
    made.start()
    yield made
    made.close()


def settings(folder: Path, port: int) -> Settings:
    told = {"SERVER": "127.0.0.1", "PORT": str(port), "SECURED": "tls", "PASSWORD": "a secret of the shop"}
    told |= {"USER": "desk", "FROM": "desk@works.example", "TO": "lead@works.example"}
    return read_settings(folder, {f"STRAWLINE_MAIL_{name}": value for name, value in told.items()})


def letter() -> EmailMessage:
    made = EmailMessage()
    made["Subject"] = "the morning list"
    made.set_content("nothing waits\n")
    return made


def test_a_server_nobody_vouches_for_is_told_nothing(box: Letterbox, tmp_path: Path):
    """Where no trusted authority knows the certificate, neither letter nor password leaves, and the words say why."""
    with pytest.raises(NotPosted, match="certificate verify failed"):
        post(settings(tmp_path, box.port), letter())
    assert box.told == []


def test_a_server_that_is_vouched_for_gets_the_letter(
    box: Letterbox, folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """The same server, its authority trusted: the letter arrives."""
    monkeypatch.setenv("SSL_CERT_FILE", str(folder / "authority.crt"))
    post(settings(tmp_path, box.port), letter())
    assert "Subject: the morning list\r\n" in box.letters[0]
    assert b"AUTH PLAIN AGRlc2sAYSBzZWNyZXQgb2YgdGhlIHNob3A=\r\n" in box.told
