"""Whatever is altered in the file behind the program's back is named by the recheck, and an honest record passes."""

import re
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.door_facts import Credential, Device
from server.record.keeping_devices import enrol_device
from server.record.keeping_secrets import keep_credential
from server.record.reading_only import reading_only
from server.record.record_check import CannotCheck, check_record
from server.record.signing_key import read_signer
from server.work.door_told import BY_COMMAND, door_line
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry, new_register, person
from tests.record.tampering import tamper

FORGED = (
    "SELECT 0, 'TAB-1:b1:99', delivery, kind, entry_kind, device, boot, seq, mono_ms, device_ms, sent_ms, happened_ms, "
    "received_ms, frame, of, state, problem, body, body_sha256, envelope, leaf FROM line"
)


@pytest.fixture
def filled(file: Path) -> Path:
    """A closed record of three entries, a bead, a repeat, a refused copy and a person, with two checkpoints."""
    record = Record.open(url_of(file))
    line = new_entry(1)
    append(record, line, new_entry(2), new_entry(3, torch_line="T-2"), new_register(person()))
    record.checkpoint().result()
    again = line._replace(state="taken before", body=b"", body_sha256=b"s" * 32, subjects=())
    append(record, again, line._replace(state="refused copy"), new_entry(4, "bead", line="T-1", result="good"))
    record.close()
    return file


def odd(file: Path) -> tuple[str, ...]:
    return check_record(url_of(file), file.parent).odd


def test_an_honest_record_holds(filled: Path):
    """Control: nothing was altered and nothing is said."""
    found = check_record(url_of(filled), filled.parent)
    assert (found.lines, found.checkpoints, found.odd) == (9, 2, ())


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE line SET body = replace(body, '41', '14') WHERE position = 2", "position 2, .* bytes: their SHA-256"),
        ("UPDATE line SET envelope = replace(envelope, 'TAB-1', 'TAB-2') WHERE position = 2", "position 2, .* leaf"),
        ("UPDATE line SET leaf = zeroblob(32) WHERE position = 2", "position 2, .* leaf"),
        ("UPDATE line SET frame = 'F-2' WHERE position = 2", "position 2, .* frame is 'F-2', sealed is 'F-1'"),
        ("UPDATE line SET device_ms = device_ms + 60000 WHERE position = 2", "position 2, .* device_ms"),
        ("UPDATE line SET received_ms = 0 WHERE position = 2", "position 2, .* received is '1970"),
        ("UPDATE line SET sent_ms = NULL WHERE position = 2", "position 2, .* sent is 'None'"),
        ("UPDATE line SET entry_kind = 'tack' WHERE position = 2", "position 2, .* entry_kind is 'tack'"),
        ("UPDATE line SET state = 'refused copy' WHERE position = 2", "position 2, .* state is 'refused copy'"),
        ("UPDATE line SET problem = 'x' WHERE position = 2", "position 2, .* problem is 'x'"),
        ("UPDATE line SET id = 'TAB-1:b1:9' WHERE position = 2", "position 2, .* id is 'TAB-1:b1:9'"),
        ("UPDATE line SET body_sha256 = zeroblob(32) WHERE position = 2", "position 2, .* SHA-256"),
        ("UPDATE line SET received_ms = 'noon' WHERE position = 2", "position 2, .* never could"),
        ("UPDATE line SET body = 5 WHERE position = 2", "position 2, .* bytes"),
        ("DELETE FROM line WHERE position = 2", "position 2 is missing"),
        ("UPDATE line SET position = 99 WHERE position = 9", "position"),
        ("DELETE FROM subject_link WHERE position = 3 AND kind = 'gas line'", "position 3, .* chains"),
        ("UPDATE subject_link SET head = zeroblob(32) WHERE position = 2", "position 2, .* head"),
        ("UPDATE subject_link SET id = 'T-9' WHERE position = 2 AND kind = 'gas line'", "position 2, .* chains"),
        ("UPDATE subject_link SET number = 9 WHERE position = 7 AND kind = 'gas line'", "position 7"),
        ("INSERT INTO subject_link VALUES ('frame', 'F-9', 1, 99, zeroblob(32))", "frame F-9: .* goes on from"),
        ("UPDATE checkpoint SET note = replace(note, 'strawline', 'straw-man')", "checkpoint"),
        ("DELETE FROM checkpoint WHERE size = 5", "position 5, .* its checkpoint is missing"),
        ("DELETE FROM checkpoint WHERE size = 9", "position 9, .* its checkpoint is missing"),
        ("DELETE FROM subject_link WHERE id = 'seals'", "seal"),
        ("UPDATE line SET body = 'x' WHERE kind = 'seal' AND position = 5", "position 5, .* body"),
        ("UPDATE line SET body = replace(body, 'Ada', 'Eve') WHERE kind = 'person'", "position 4, id P1: bytes"),
        ("UPDATE line SET frame = 'F-1' WHERE kind = 'person'", "position 4, id P1: frame is 'F-1', sealed is 'None'"),
        ("UPDATE line SET happened_ms = 5 WHERE kind = 'person'", "position 4, id P1: happened_ms is '5'"),
        ("UPDATE line SET frame = 'F-1' WHERE kind = 'seal'", "position 5, .* frame is 'F-1', sealed is 'None'"),
        ("UPDATE line SET received_ms = 5 WHERE kind = 'seal'", "position 5, .* received_ms is '5'"),
        ("UPDATE line SET mono_ms = 1 WHERE state = 'taken before'", "position 6, .* mono_ms is '1', sealed is '1000'"),
        ("UPDATE line SET body = 'x' WHERE state = 'taken before'", "position 6, .* body is"),
        ("UPDATE line SET device_ms = 1 WHERE state = 'refused copy'", "position 7, .* device_ms is '1'"),
        ("UPDATE line SET frame = 'F-2' WHERE state = 'refused copy'", "position 7, .* frame is 'F-2'"),
        (f"INSERT INTO line {FORGED} WHERE position = 2", "position 0, id TAB-1:b1:99: stands before the first"),
        ("INSERT INTO subject_link VALUES ('frame', 'F-1', 0, 0, zeroblob(32))", "F-1, number 0: names position 0"),
        ("UPDATE checkpoint SET root = zeroblob(32) WHERE size = 5", "kept at size 5: its root is 0000"),
        ("UPDATE checkpoint SET peaks = zeroblob(64) WHERE size = 5", "kept at size 5: its peaks, .* do not lead"),
        ("UPDATE checkpoint SET peaks = zeroblob(7) WHERE size = 5", "kept at size 5: its peaks, .* do not lead"),
        ("UPDATE checkpoint SET made_ms = 5 WHERE size = 5", "kept at size 5: it was made at 1970"),
        ("INSERT INTO checkpoint SELECT 4, root, peaks, note, made_ms FROM checkpoint WHERE size = 5", "over 5 lines"),
        ("INSERT INTO judged_to VALUES (1, 'then', 99, 5)", "how far it is judged: reaches to position 99"),
    ],
)
def test_what_was_altered_is_named(filled: Path, statement: str, said: str):
    """Each way of changing, removing or moving something in the file is named with the entry it was done to."""
    tamper(filled, statement)
    found = "\n".join(odd(filled))
    assert found
    assert re.search(said, found), found


def test_a_missing_guard_is_named(filled: Path):
    """A record left without its guards is reported even though every line still holds."""
    tamper(filled, "UPDATE line SET device = device", put_guards_back=False)
    found = odd(filled)
    assert len(found) == 18 + 4
    assert all("the guard" in each and "is missing" in each for each in found)


def test_a_guard_that_refuses_nothing_and_a_stranger_are_named(filled: Path):
    """A trigger with a guard's name that lets everything through is no guard, and one nobody knows is named."""
    with closing(sqlite3.connect(filled)) as other:
        other.execute("DROP TRIGGER line_no_update")
        other.execute("CREATE TRIGGER line_no_update BEFORE UPDATE ON line BEGIN SELECT 1; END")
        other.execute("CREATE TRIGGER later AFTER INSERT ON line BEGIN UPDATE credential SET made_ms = 1; END")
        other.commit()
    altered, stranger = odd(filled)
    assert "the guard line_no_update is missing or altered" in altered
    assert "the trigger later is none of this program's" in stranger


def test_an_index_that_hides_a_line_is_named(filled: Path):
    """A line whose frame was changed and changed back while its index looked away is found by no page of its frame."""
    name = "ix_line_frame_entry_kind_position"
    with closing(sqlite3.connect(filled)) as other:
        (guard,) = other.execute("SELECT sql FROM sqlite_master WHERE name = 'line_no_update'").fetchone()
        other.execute("DROP TRIGGER line_no_update")
        other.execute("UPDATE line SET frame = 'F-2' WHERE position = 2")
        kept = other.execute("SELECT * FROM sqlite_master WHERE name = ?", (name,)).fetchone()
        other.execute("PRAGMA writable_schema = ON")
        other.execute("DELETE FROM sqlite_master WHERE name = ?", (name,))
        other.commit()
    with closing(sqlite3.connect(filled)) as other:
        other.execute("UPDATE line SET frame = 'F-1' WHERE position = 2")
        other.execute(guard)
        other.execute("PRAGMA writable_schema = ON")
        other.execute("INSERT INTO sqlite_master VALUES (?, ?, ?, ?, ?)", kept)
        other.commit()
    with reading_only(url_of(filled)) as reads:
        assert 2 not in [each.position for each in reads.lines_of_frame("F-1")]
    assert [each for each in odd(filled) if name in each]


def test_history_rewritten_with_the_key_shows_against_a_checkpoint_outside(filled: Path):
    """Whoever holds the key can make a new history that holds in itself; one older checkpoint kept outside tells."""
    record = Record.open(url_of(filled))
    with record.reads() as reads:
        handed_out = reads.newest_checkpoint()
    record.close()
    assert handed_out is not None
    signer = read_signer(filled.parent)
    assert signer is not None
    filled.unlink()
    rewritten = Record.open(url_of(filled))
    append(rewritten, *(new_entry(number, note="as if") for number in range(20)))
    rewritten.close()
    assert odd(filled) == ()
    told = check_record(url_of(filled), filled.parent, [handed_out.note]).odd
    assert any("rewritten" in each for each in told), told


def test_the_key_can_be_given_from_outside(filled: Path):
    """With the public key as it was handed out a record is checked without its folder; without any key it fails."""
    signer = read_signer(filled.parent)
    assert signer is not None
    nowhere = filled.parent / "nowhere"
    assert check_record(url_of(filled), nowhere, key=str(signer.key)).odd == ()
    assert len(check_record(url_of(filled), nowhere).odd) >= 2


def test_what_cannot_be_checked_says_why(tmp_path: Path):
    """No file, a file that is no record, and a misspelt key each say what is wrong instead of passing."""
    with pytest.raises(CannotCheck, match="there is no record"):
        check_record(url_of(tmp_path / "none.sqlite3"), tmp_path)
    (tmp_path / "text.sqlite3").write_text("this is no database at all, only some text\n" * 50)
    with pytest.raises(CannotCheck, match="cannot be read"):
        check_record(url_of(tmp_path / "text.sqlite3"), tmp_path)
    (tmp_path / "empty.sqlite3").touch()
    with pytest.raises(CannotCheck, match="cannot be read"):
        check_record(url_of(tmp_path / "empty.sqlite3"), tmp_path)
    with pytest.raises(CannotCheck, match="name\\+id"):
        check_record(url_of(tmp_path / "empty.sqlite3"), tmp_path, key="nonsense")


DOOR = [
    ("UPDATE credential SET made_ms = 6", "the pin of P1, set at 1970-01-01T00:00:00.006Z: the last line about it is"),
    ("UPDATE credential SET person = 'P2'", "the pin of P2, .* no line tells of it"),
    ("UPDATE device SET enrolled_ms = 6 WHERE id = 'PAD'", "the tablet PAD, enrolled at .* 'tablet enrolled'"),
    ("UPDATE device SET revoked_ms = NULL", "the tablet OLD, enrolled at .* line about it is 'tablet revoked'"),
    ("INSERT INTO passkey VALUES ('k', 'P1', 'phone', 'x', 0, 5, NULL)", "the passkey 'phone' of P1, .* no line tells"),
]


@pytest.mark.parametrize(("statement", "said"), DOOR)
def test_what_no_line_let_in_is_named(filled: Path, statement: str, said: str):
    """A secret, tablet or passkey put in, put back or dated anew in the file stands by no line."""
    record = Record.open(url_of(filled), filled.parent)
    told = [door_line("PIN set", BY_COMMAND, 5, person="P1")]
    told += [door_line("tablet enrolled", BY_COMMAND, 5, tablet=name) for name in ("PAD", "OLD")]
    told += [door_line("tablet revoked", BY_COMMAND, 7, tablet="OLD")]
    devices = [enrol_device(Device("PAD", "", None, "a", 5)), enrol_device(Device("OLD", "", None, "b", 5, 7))]
    append(record, *told, changes=(keep_credential(Credential("P1", "pin", "hash", 5)), *devices))
    record.close()
    assert odd(filled) == ()
    tamper(filled, statement)
    found = "\n".join(odd(filled))
    assert re.search(said, found), found
