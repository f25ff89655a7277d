"""Clock pairs for some entries settle the same true times as those of the whole shop."""

from server.facts.recorded import Recorded
from server.occasions.clocks import Clocks
from server.record.book_of_lines import Record
from server.record.reads import Reads
from tests.record.fixtures import append
from tests.record.sample_lines import RECEIVED, new_entry


def boots(record: Record) -> None:
    """Three boots of one tablet; what the second kept back was received only after the third had been heard."""
    for number, boot, late_ms in ((1, "b1", 0), (2, "b2", 900_000), (3, "b2", 40_000_000), (4, "b3", 0)):
        append(record, new_entry(number, boot=boot, received_ms=RECEIVED + late_ms))
    append(record, new_entry(5, id="TAB-2:b1:5", device="TAB-2"))


def stamps(reads: Reads, entries: list[Recorded], known_at: int | None) -> tuple[list[object], list[object]]:
    some, every = (Clocks(pairs) for pairs in (reads.clock_pairs_for(entries, known_at), reads.clock_pairs(known_at)))
    return [some.stamp(each.entry) for each in entries], [every.stamp(each.entry) for each in entries]


def test_the_same_true_times(either: Record):
    """Each entry alone, and all together, get the stamp the whole shop's pairs give, now and as known before."""
    boots(either)
    with either.reads() as reads:
        entries = list(reads.every_entry())
        assert len({each.entry.boot for each in entries}) > 2
        for known_at in (None, 2, 3, 5):
            for some in (entries, *([each] for each in entries)):
                found, expected = stamps(reads, some, known_at)
                assert found == expected


def test_the_boot_after_is_needed(either: Record):
    """Control: without when the next boot was first heard, what came later would be believed of this one's clock."""
    boots(either)
    with either.reads() as reads:
        third = [each for each in reads.every_entry() if each.entry.boot == "b2"]
        pairs = reads.clock_pairs_for(third)
        alone = Clocks([each for each in pairs if each.boot == "b2"])
        assert alone.stamp(third[0].entry) != Clocks(pairs).stamp(third[0].entry)


def test_boots_are_carried_on(either: Record):
    """A boot that came since is known without reading the earlier ones again, also by its device's other boots."""
    boots(either)
    with either.reads() as reads:
        before = reads.boots_heard()
    append(either, new_entry(6, boot="b4"))
    with either.reads() as reads:
        after = reads.boots_heard()
        assert before is not None
        assert after is not None
        assert set(after["TAB-1"]) - set(before["TAB-1"]) == {"b4"}
        entries = list(reads.every_entry())
        found, expected = stamps(reads, entries, None)
        assert found == expected
