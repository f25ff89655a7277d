"""The command that checks a record: what it says, and what it gives back to whoever called it."""

import json
from pathlib import Path

import pytest

from server.commands.check_record import run
from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.signing_key import known_keys
from server.work.keep_photo import PhotoSent, keep_photo
from tests.documents.drawn_picture import as_bytes, drawn
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry
from tests.record.tampering import tamper


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with a record of two entries and a checkpoint."""
    record = Record.open(url_of(tmp_path / "record.sqlite3"))
    append(record, new_entry(1), new_entry(2))
    record.close()
    return tmp_path


def test_an_honest_record_passes(data: Path, capsys: pytest.CaptureFixture[str]):
    """Everything holds, which is said with how much there is and what it rests on, and the command succeeds."""
    assert run(["--data", str(data)]) == 0
    *rests_on, verdict = capsys.readouterr().out.splitlines()
    assert verdict == "3 lines, 1 checkpoints, 0 files, 0 from outside: everything holds"
    assert [each.split()[0] for each in rests_on] == ["The", "No"]
    assert run(["--data", str(data), "--key", str(known_keys(data)[0])]) == 0
    assert "The key is the data folder's own" not in capsys.readouterr().out


def test_a_tampered_entry_is_named(data: Path, capsys: pytest.CaptureFixture[str]):
    """An entry whose bytes were altered is named by position and id, and the command gives 1."""
    tamper(data / "record.sqlite3", "UPDATE line SET body = CAST(replace(body, 'J1', 'J2') AS BLOB) WHERE position = 2")
    assert run(["--data", str(data)]) == 1
    said = capsys.readouterr().out
    assert "entry at position 2, id TAB-1:b1:2: bytes: their SHA-256" in said
    assert "position 1," not in said


def test_a_checkpoint_from_outside_is_compared(data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """A checkpoint that was handed out is read from its file or a dossier's data; what is neither does not pass."""
    record = Record.open(url_of(data / "record.sqlite3"))
    (tmp_path / "card.txt").write_bytes(record.checkpoint().result().note)
    record.close()
    (tmp_path / "other.txt").write_text("no checkpoint\n")
    (tmp_path / "dossier.json").write_text(json.dumps({"checkpoint": (tmp_path / "card.txt").read_text()}))
    assert run(["--data", str(data), "--outside", str(tmp_path / "card.txt"), str(tmp_path / "dossier.json")]) == 0
    assert "2 from outside: everything holds" in capsys.readouterr().out
    assert run(["--data", str(data), "--outside", str(tmp_path / "other.txt")]) == 1


def test_a_lost_picture_and_a_damaged_one_are_named(data: Path, capsys: pytest.CaptureFixture[str]):
    """Of two pictures that arrived one is deleted and one flipped; each is named with its line, put back it holds."""
    record = Record.open(url_of(data / "record.sqlite3"), data)
    sent = [PhotoSent(as_bytes(drawn(tint))) for tint in ("#d9ac3a", "#8899aa")]
    arrived = [keep_photo(record, Files(data), each, 1_742_301_600_000).arrived for each in sent]
    record.close()
    lost, flipped = (data / "record" / "files" / each.kept_sha256[:2] / each.kept_sha256 for each in arrived)
    content = [each.read_bytes() for each in (lost, flipped)]
    assert run(["--data", str(data)]) == 0
    assert ", 2 files, " in capsys.readouterr().out
    lost.unlink()
    flipped.write_bytes(content[1][:-1] + b"x")
    assert run(["--data", str(data)]) == 1
    said = capsys.readouterr().out
    assert f"{arrived[0].id}: the file {lost.name} is missing" in said
    assert f"{arrived[1].id}: the file {flipped.name} has other bytes" in said
    lost.write_bytes(content[0])
    flipped.write_bytes(content[1])
    assert run(["--data", str(data)]) == 0


@pytest.mark.parametrize("further", [[], ["--key", "nonsense"], ["--outside", "no-such-file"]])
def test_what_cannot_be_checked_is_no_pass(tmp_path: Path, further: list[str], capsys: pytest.CaptureFixture[str]):
    """Without a record, with a bad key or a missing file the command gives 2 and says why."""
    assert run(["--data", str(tmp_path), *further]) == 2
    assert capsys.readouterr().out.startswith("not checked: ")
