"""A restored copy signs nothing until it was told what is known outside, and never a second history by one name."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from server.record.book_of_lines import Record
from server.record.record_check import check_record
from server.record.signing_key import known_keys, read_signer
from server.record.troubles import CopyNotContinued
from server.settings import Settings
from server.upkeep.backing_up import back_up
from server.upkeep.restore import restore
from server.work.continue_copy import NotContinued, Outside, continue_copy
from server.work.refusal import NotThere
from tests.record.fixtures import append, made_in
from tests.record.sample_lines import new_entry, new_register, person
from tests.record.tampering import tamper
from tests.upkeep.shop_data import HOUR, NOW, add, make_data


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A data folder with a small record in it."""
    return make_data(tmp_path / "data")


@pytest.fixture
def copy(settings: Settings, tmp_path: Path) -> Settings:
    """A restored copy of it: 22 lines."""
    restore(back_up(settings, NOW).folder, tmp_path / "copy")
    return Settings(data_folder=tmp_path / "copy")


def newest_note(settings: Settings) -> bytes:
    record = Record.open(settings.database_url, settings.data_folder)
    with record.reads() as reads:
        found = reads.newest_checkpoint()
    record.close()
    assert found is not None
    return found.note


def go_on(copy: Settings, *notes: bytes, by: str = "P1", none_known: bool = False, new_name: bool = False):
    outside = Outside(notes, by, none_known, new_name)
    return continue_copy(copy.database_url, copy.data_folder, outside, NOW + HOUR)


def odd(copy: Settings, *notes: bytes) -> tuple[str, ...]:
    return check_record(copy.database_url, copy.data_folder, notes).odd


def closed(copy: Settings) -> bool:
    record = Record.open(copy.database_url, copy.data_folder)
    try:
        append(record, new_entry(500))
    except CopyNotContinued:
        return True
    finally:
        record.close()
    return False


def told_in(copy: Settings):
    record = Record.open(copy.database_url, copy.data_folder)
    with record.reads() as reads:
        (told,) = reads.registers().continuations.values()
    record.close()
    return told


def test_it_goes_on_once_it_was_told(settings: Settings, copy: Settings):
    """Told the last checkpoint known outside, it appends that as a line, signs by its old name, and takes entries."""
    note = newest_note(settings)
    assert closed(copy)
    signed = go_on(copy, note)
    told = told_in(copy)
    assert (told.lines, told.known_outside, told.told_by) == (22, (note.decode(),), "P1")
    assert (told.copied, told.lines_lost) == ("2025-03-18T12:40:00.000Z", None)
    assert signed.checkpoint.origin == note.decode().partition("\n")[0]
    assert signed.checkpoint.size == 24
    assert not closed(copy)
    assert odd(copy, note, signed.note) == ()


def test_that_none_is_known_is_a_statement(copy: Settings):
    """Without any checkpoint the declaration itself is recorded, with who made it."""
    go_on(copy, none_known=True)
    assert told_in(copy).statement == "no checkpoint is known outside"
    assert odd(copy) == ()


def test_lines_known_outside_and_lost_need_another_name(settings: Settings, copy: Settings):
    """Where a checkpoint outside covers more lines, the copy refuses; under another name it says what is lost."""
    further = add(settings, 300, 301)
    with pytest.raises(NotContinued, match="covers 3 lines more than the 22 of this copy"):
        go_on(copy, further)
    assert closed(copy)
    former = read_signer(copy.data_folder)
    signed = go_on(copy, further, new_name=True)
    told = told_in(copy)
    assert former is not None
    assert (told.lines_lost, told.former_name) == (3, former.key.name)
    assert signed.checkpoint.origin != former.key.name
    assert [key.name for key in known_keys(copy.data_folder)] == [signed.checkpoint.origin, former.key.name]
    assert odd(copy) == ()


def test_no_name_signs_two_histories(settings: Settings, copy: Settings):
    """Whatever both sign afterwards, no two checkpoints of one name and size differ."""
    further = add(settings, 300, 301)
    go_on(copy, further, new_name=True)
    mine, other = add(settings, *range(302, 310)), add(copy, *range(400, 410))
    assert mine.decode().partition("\n")[0] != other.decode().partition("\n")[0]
    assert any("rewritten" in said or "refused" in said or "signed over" in said for said in odd(copy, further))


def test_without_its_mark_a_copy_signs_a_second_history(settings: Settings, copy: Settings):
    """Control: with its mark taken off by hand a copy signs other lines by the same name, and a recheck tells."""
    with closing(sqlite3.connect(copy.data_folder / "record.sqlite3")) as file:
        file.execute("PRAGMA user_version=0")
    mine, other = add(settings, *range(302, 310)), add(copy, *range(400, 408))
    signed = [note.decode().split("\n")[:3] for note in (mine, other)]
    assert signed[0][:2] == signed[1][:2]
    assert signed[0][2] != signed[1][2]
    assert any("rewritten" in said for said in odd(copy, mine))


def test_a_lost_key_needs_another_name(settings: Settings, tmp_path: Path):
    """Restored without its key the copy asks for it; under another name it goes on, and its past can be checked."""
    folder = back_up(Settings(settings.data_folder, backup_with_key=False), NOW).folder
    restore(folder, tmp_path / "copy")
    copy = Settings(data_folder=tmp_path / "copy")
    with pytest.raises(NotContinued, match=r"put record\.key back"):
        go_on(copy, none_known=True)
    go_on(copy, newest_note(settings), new_name=True)
    assert odd(copy, newest_note(settings)) == ()


@pytest.mark.parametrize(
    ("notes", "none_known", "said"),
    [((), False, "one of both"), ((b"x",), True, "one of both"), ((b"no checkpoint\n",), False, "from outside")],
)
def test_half_a_statement_is_refused(copy: Settings, notes: tuple[bytes, ...], none_known: bool, said: str):
    """Nothing told, both told, or something that is no checkpoint of this record: it stays closed."""
    with pytest.raises(NotContinued, match=said):
        go_on(copy, *notes, none_known=none_known)
    assert closed(copy)


def test_who_says_it_must_be_known(copy: Settings):
    """A name the record does not know is refused, with those it does."""
    with pytest.raises(NotThere, match="known are P1"):
        go_on(copy, none_known=True, by="P9")
    assert closed(copy)


def test_an_altered_copy_stays_closed(copy: Settings):
    """A copy that does not hold is refused before anything is signed."""
    tamper(copy.data_folder / "record.sqlite3", "UPDATE line SET frame = 'F-2' WHERE position = 5")
    with pytest.raises(NotContinued, match="position 5"):
        go_on(copy, none_known=True)
    assert closed(copy)


def test_a_history_that_differs_from_one_outside_stays_closed(copy: Settings, settings: Settings, tmp_path: Path):
    """Shown a checkpoint of the same key over other lines, the copy does not go on, whatever name is asked for."""
    other = make_data(tmp_path / "other", entries=3)
    (other.data_folder / "record.sqlite3").unlink()
    (other.data_folder / "record.key").write_bytes((settings.data_folder / "record.key").read_bytes())
    rewritten = add(other, 900, 901)
    for new_name in (False, True):
        with pytest.raises(NotContinued, match="rewritten"):
            go_on(copy, rewritten, new_name=new_name)
    assert closed(copy)


def test_the_record_itself_needs_no_telling(settings: Settings):
    """A record that is no copy refuses, and takes entries as before."""
    with pytest.raises(NotContinued, match="no restored copy"):
        go_on(settings, none_known=True)
    assert not closed(settings)


def test_a_restored_postgresql_is_continued_by_asking(postgres: Any, tmp_path: Path):
    """No mark closes it, so whoever restored it asks: lines lost are refused first, then it goes on by another name."""
    data = Settings(data_folder=tmp_path, database=made_in(postgres, "restored_elsewhere"))
    opened = Record.open(data.database_url, tmp_path)
    append(opened, new_register(person()), new_entry(1))
    opened.close()
    former, size, *_ = newest_note(data).decode().split("\n")
    signer = read_signer(tmp_path)
    assert signer is not None
    # What the record signed after the dump was made.
    further = sign_checkpoint(Checkpoint(former, int(size) + 3, b"0" * 32), signer)
    with pytest.raises(NotContinued, match="covers 3 lines more"):
        go_on(data, further)
    assert go_on(data, further, new_name=True).checkpoint.origin != former
    assert (told_in(data).lines_lost, told_in(data).former_name) == (3, former)
    assert odd(data, newest_note(data)) == ()
