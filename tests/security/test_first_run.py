"""The first run: no secret is there until the owner makes one on the machine itself, and no weak one is taken."""

import io
from pathlib import Path

import pytest

from server.app import build_app
from server.commands import owner
from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.settings import Settings
from server.work.set_pin import set_pin
from server.work.telling import told_line
from tests.security.caller import PHRASE, Caller


def first_run(folder: Path, typed: str, monkeypatch: pytest.MonkeyPatch, *further: str) -> int:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed + "\n"))
    return owner.run(["--data", str(folder), *further])


def lets_in(folder: Path, person: str, secret: str) -> bool:
    record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    status = Caller(build_app(Settings(data_folder=folder), record)).try_in(person, secret).status_code
    record.close()
    return status == 303


def secrets_in(folder: Path) -> int:
    record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    with record.reads() as reads:
        found = len(reads.people_with_credentials())
    record.close()
    return found


def test_a_new_shop_has_no_secret(tmp_path: Path):
    """A fresh record lets nobody in: there is no default account and no default password."""
    assert secrets_in(tmp_path) == 0


def test_the_owner_is_made_on_the_machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The command tells the record the owner and keeps their pass phrase, which then opens from any device."""
    assert first_run(tmp_path, PHRASE, monkeypatch, "--id", "O1", "--name", "Ada Vane") == 0
    assert lets_in(tmp_path, "O1", PHRASE)


def test_run_again_it_is_the_way_back_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """An owner who lost the pass phrase sets another on the machine, without naming themselves; the old one is gone."""
    first_run(tmp_path, PHRASE, monkeypatch, "--id", "O1", "--name", "Ada Vane")
    assert first_run(tmp_path, "another phrase altogether", monkeypatch) == 0
    assert not lets_in(tmp_path, "O1", PHRASE)
    assert lets_in(tmp_path, "O1", "another phrase altogether")


@pytest.mark.parametrize("weak", ["", "short", "passwordpassword", "aaaaaaaaaaaaaaa", "strawline1234567890", "x" * 201])
def test_weak_ones_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, weak: str):
    """What anybody would try first is refused, and nothing is kept."""
    assert first_run(tmp_path, weak, monkeypatch, "--name", "Ada Vane") == 2
    assert secrets_in(tmp_path) == 0


def test_nobody_becomes_owner_by_the_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    """A person of the registers who is no owner is not made one by the command; it says what they are."""
    record = Record.open(f"sqlite:///{tmp_path / 'record.sqlite3'}", tmp_path)
    welder = told_line({"kind": "person", "id": "P1", "name": "Bo Lind", "roles": ["welder"]}, now_ms())
    record.write(lambda _: Written(lambda _: None, lines=(welder,))).result()
    set_pin(record, "P1", "481516", now_ms())
    record.close()
    assert first_run(tmp_path, PHRASE, monkeypatch, "--id", "P1") == 2
    assert "'P1' is welder here" in capsys.readouterr().err
    assert first_run(tmp_path, PHRASE, monkeypatch) == 2
    assert "give it with --name" in capsys.readouterr().err
