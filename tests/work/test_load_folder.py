"""A shop folder comes into the record: through the verbs, in its order, and only once."""

import json
from pathlib import Path

import pytest

from server.facts.moment import parse_moment
from server.record.book_of_lines import Record
from server.record.lines import StoredLine
from server.work.load_folder import Loaded, load_folder
from server.work.shop_folder import read_shop_folder
from tests.work.moved_in import DAY, MINUTE, entry, moved_in, release, sending, write

NOW = 1_790_000_000_000


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder as it should be."""
    return moved_in(tmp_path / "shop")


def load(record: Record, folder: Path) -> Loaded:
    return load_folder(record, read_shop_folder(folder), NOW)


def stored(record: Record) -> list[StoredLine]:
    with record.reads() as reads:
        return [line for line in reads.lines_between(1, reads.last_position()) if line.kind != "seal"]


def test_everything_is_told_in_order(record: Record, folder: Path) -> None:
    """The record holds every line of the folder, in the order they were known, at the moments they were received."""
    loaded = load(record, folder)
    lines = stored(record)
    assert loaded == Loaded(len(lines), len(lines))
    assert [line.id for line in lines[-6:]] == ["X-1", "X-1 P", "slate:b:1", "r", "slate:b:3", "slate:b:4"]
    assert lines[0].received_ms == NOW
    assert [line.received_ms for line in lines[-6:-2]] == [
        parse_moment("2025-03-18T05:40:00Z"), parse_moment("2025-03-18T05:40:00Z"), DAY + MINUTE + 500, DAY + 2 * MINUTE
    ]  # fmt: skip


def test_the_bytes_are_those_of_the_folder(record: Record, folder: Path) -> None:
    """An entry is kept byte for byte as its sending told it, and the registers know what the tables said."""
    load(record, folder)
    assert next(line for line in stored(record) if line.id == "slate:b:3").body.decode() == entry(3)
    with record.reads() as reads:
        registers = reads.registers()
    assert registers.people["ada"].name == "Ada Vane"
    assert registers.packets["X-1"].design == "CART"
    assert set(registers.designs) == {"CART"}


def test_a_permission_is_told_what_its_gate_could_know(record: Record, folder: Path) -> None:
    """A release names the position of the last line before it."""
    load(record, folder)
    position = next(line.position for line in stored(record) if line.id == "r")
    with record.reads() as reads:
        assert reads.registers().permissions["r"].known_at == position - 1


def test_loading_twice_changes_nothing(record: Record, folder: Path) -> None:
    """The second time nothing is added, also where a name was told twice and a permission was told its position."""
    write(folder, "papers.jsonl", release(2), {**release(5), "line": {**release(5)["line"], "reason": "once more"}})
    load(record, folder)
    before = stored(record)
    assert load(record, folder).added == 0
    assert stored(record) == before


def test_the_records_own_seals_are_not_counted(record: Record, folder: Path) -> None:
    """A seal the record makes while a folder is loaded is no line of the folder."""
    read = read_shop_folder(folder)
    loaded = load_folder(record, read, NOW, lambda done, of: record.checkpoint().result() and None)
    assert loaded == Loaded(read.lines, read.lines)
    with record.reads() as reads:
        assert reads.last_position() > read.lines


def test_what_came_since_is_told(record: Record, folder: Path) -> None:
    """Loaded again with further lines, only those are added."""
    load(record, folder)
    with (folder / "deliveries.jsonl").open("a") as deliveries:
        deliveries.write(json.dumps(sending(6, entry(6))) + "\n")
    assert load(record, folder).added == 1
    assert stored(record)[-1].id == "slate:b:6"


def test_an_entry_sent_again_is_a_repeat(record: Record, folder: Path) -> None:
    """A second sending of the same entry is kept as a repeat, for the clocks; loaded again it is not one more."""
    write(folder, "deliveries.jsonl", sending(1, entry(1)), sending(2, entry(1), minutes=9))
    load(record, folder)
    assert [line.state for line in stored(record) if line.id == "slate:b:1"] == ["taken", "taken before"]
    assert load(record, folder).added == 0


def test_what_cannot_be_understood_is_taken(record: Record, folder: Path) -> None:
    """An entry of an unknown kind is taken and says so, and the next is taken as ever."""
    write(folder, "deliveries.jsonl", sending(1, entry(1, kind="song")), sending(2, entry(2)))
    load(record, folder)
    assert [line.state for line in stored(record)][-3:] == ["taken, not understood", "taken", "taken"]


def test_what_entries_name_is_known_before_them(record: Record, folder: Path) -> None:
    """An entry about the frame whose packet came just before it brings no remark; one about no frame we know does."""
    write(folder, "deliveries.jsonl", sending(1, entry(1, frame="X-1")), sending(2, entry(2, frame="X-9")))
    load(record, folder)
    assert [line.problem is None for line in stored(record) if line.kind == "entry"] == [True, False]


def test_a_packet_between_entries_is_known_to_those_behind_it(record: Record, folder: Path) -> None:
    """Of two entries about a frame, the one that came before its packet brings a remark, and the one behind it none."""
    with (folder / "packets.toml").open("a") as packets:
        packets.write(
            '[[packet]]\nframe = "X-2"\ndesign = "CART"\nsize = "S"\nissued = 2025-03-18T10:02:00Z\n'
            "received_at = 2025-03-18T10:02:00Z\n"
        )
    named = (sending(number, entry(number, frame="X-2", joint=joint)) for number, joint in ((1, None), (3, "no-such")))
    write(folder, "deliveries.jsonl", *named, sending(4, entry(4, frame="X-2")))
    load(record, folder)
    early, odd, late = (line.problem for line in stored(record) if line.kind == "entry")
    assert early
    assert "no packet" in early
    assert odd
    assert "CART has" in odd
    assert late is None


def test_progress_is_told(record: Record, folder: Path) -> None:
    """Progress counts up to the number of lines in the folder."""
    told: list[tuple[int, int]] = []
    read = read_shop_folder(folder)
    load_folder(record, read, NOW, lambda done, of: told.append((done, of)))
    assert told == sorted(told)
    assert told[-1] == (read.lines, read.lines)


def test_meanwhile_the_log_may_grow_longer(record: Record, folder: Path) -> None:
    """As long as a folder is loaded the write-ahead log is moved less often; afterwards as ever."""
    log, seldom = record._write_ahead, list[bool]()
    assert log
    load_folder(record, read_shop_folder(folder), NOW, lambda done, of: seldom.append(log.seldom))
    assert set(seldom) == {True}
    assert not log.seldom
