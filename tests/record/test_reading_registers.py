"""The registers: the last told wins, any earlier state can be asked for, and what was read is not read again."""

from pathlib import Path

import pytest

from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.record.known_registers import FIELD_OF, KnownRegisters, carried_on
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry, new_register, person

PACKET = {
    "kind": "packet",
    "id": "K-1",
    "frame": "F-1",
    "design": "D",
    "size": "54",
    "issued": "2025-03-01T08:00:00.000Z",
}


def test_the_last_told_wins_and_the_earlier_stays_known(either: Record):
    """A person told again stands as told last; asked as of before, as told first; and before that not at all."""
    append(either, new_register(person("Ada Vane")))
    append(either, new_entry(1), new_register(person("Ada Reed")))
    with either.reads() as reads:
        assert reads.registers().people["P1"].name == "Ada Reed"
        assert reads.registers(2).people["P1"].name == "Ada Vane"
        assert reads.registers(0).people == {}
        assert reads.registers().positions == {"person:P1": 3}


def test_registers_say_up_to_where_they_know(either: Record):
    """The state names the position it was asked for, though its last line came earlier."""
    append(either, new_register(person()), new_entry(1), new_entry(2))
    with either.reads() as reads:
        assert reads.registers().known_at == 3
        assert reads.registers(2).known_at == 2


def test_packets_go_by_frame(record: Record):
    """A packet is found by the frame it is for."""
    append(record, new_register(PACKET))
    with record.reads() as reads:
        assert reads.registers().packets["F-1"].id == "K-1"


def test_every_kind_has_its_register():
    """Each kind of register line has a field of its own in the registers."""
    import dataclasses

    fields = {each.name for each in dataclasses.fields(Registers)}
    assert set(FIELD_OF.values()) <= fields
    assert fields - set(FIELD_OF.values()) == {
        "known_at", "shop", "designs", "procedures", "positions", "looked_up",
    }


def test_a_state_once_read_is_kept(either: Record):
    """The second question of the same state reads no register line again, and one more line is read alone."""
    append(either, *(new_register(person(f"N{number}", id=f"P{number}")) for number in range(50)))
    with either.reads() as reads:
        first = reads.registers().people
    append(either, new_register(person("New", id="P99")))
    with either.reads() as reads:
        second = reads.registers().people
    assert second["P7"] is first["P7"]
    assert len(second) == 51
    assert len(first) == 50


def test_few_states_are_kept(file: Path):
    """However many states were asked for, only a few stay in memory, the empty one among them."""
    known = KnownRegisters()
    state = Registers()
    for position in range(1, 100):
        state = carried_on(state, [(position, new_register(person(id=f"P{position}")).body)])
        known.keep(state)
    assert known.nearest(99).known_at == 99
    assert known.nearest(50).known_at == 0
    assert len(known._states) <= 17


def test_an_unreadable_procedure_is_refused_before_it_is_released(record: Record):
    """A text that is no procedure does not get into the record, since there it could never be mended."""
    told = {"kind": "procedure", "id": "X", "file": "x.toml", "sha256": "0", "text": "no procedure at all ["}
    with pytest.raises(ValueError, match=r"x\.toml"):
        new_register(told)


def test_one_text_no_longer_read_does_not_close_the_record(file: Path, caplog: pytest.LogCaptureFixture):
    """A released text that a later program cannot read any more is left out and said, and all others stay known."""
    from server.evidence.canonical import canonical_line

    told = {"kind": "procedure", "id": "X", "file": "x.toml", "sha256": "0", "text": "["}
    state = carried_on(Registers(), [(1, canonical_line(told)), (2, new_register(person()).body)])
    assert state.procedures == {}
    assert "P1" in state.people
    assert "procedure X can no longer be read" in caplog.text


def test_registers_are_there_after_a_restart(file: Path):
    """Opened again, the record knows its registers from the file."""
    record = Record.open(url_of(file))
    append(record, new_register(person()))
    record.close()
    record = Record.open(url_of(file))
    with record.reads() as reads:
        assert "P1" in reads.registers().people
    record.close()
