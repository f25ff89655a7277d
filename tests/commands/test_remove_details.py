"""The command that removes a customer's details: the owner signs, and it says what may still hold them."""

import io
from pathlib import Path

import pytest

from server.commands import load, remove_details
from server.record.book_of_lines import Record, now_ms
from server.work.set_pin import set_pin
from tests.story.works import PINS, SHOP


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with the story's shop, whose owner has a PIN."""
    assert load.run([str(SHOP), "--data", str(tmp_path / "data")]) == 0
    record = Record.open(f"sqlite:///{tmp_path / 'data' / 'record.sqlite3'}")
    set_pin(record, "OWN", PINS["OWN"], now_ms())
    record.close()
    return tmp_path / "data"


def removed(data: Path, monkeypatch: pytest.MonkeyPatch, secret: str, customer: str = "CU-1") -> int:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{secret}\n"))
    told = ["--data", str(data), "--by", "OWN", "--reason", "asked for by letter"]
    return remove_details.run([customer, *told])


def test_signed_it_removes_and_says_what_is_left(
    data: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    """With the owner's secret the name leaves the file; loaded again the folder's customer is left out, and named."""
    assert removed(data, monkeypatch, PINS["OWN"]) == 0
    said = capsys.readouterr().out
    assert "the details of CU-1 are removed from the record" in said
    assert "the shop folder they were loaded from" in said
    assert b"Farol" not in (data / "record.sqlite3").read_bytes()
    assert load.run([str(SHOP), "--data", str(data)]) == 0
    assert "CU-1: the details were removed" in capsys.readouterr().out
    assert b"Farol" not in (data / "record.sqlite3").read_bytes()


@pytest.mark.parametrize(("secret", "customer"), [("000000", "CU-1"), (PINS["OWN"], "CU-9")])
def test_unsigned_or_unknown_it_removes_nothing(
    data: Path, monkeypatch: pytest.MonkeyPatch, secret: str, customer: str, capsys: pytest.CaptureFixture[str]
):
    """A wrong secret and a number nobody has give 2 and a sentence; the name stands."""
    assert removed(data, monkeypatch, secret, customer) == 2
    assert capsys.readouterr().err
    assert b"Farol" in (data / "record.sqlite3").read_bytes()
