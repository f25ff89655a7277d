"""Taking deliveries into the record: what is new, what was taken before, what mends what, and what is remarked on."""

from typing import Any

import pytest

from server.evidence.chain_subject import ChainSubject
from server.facts.delivery import Delivery, Receipt
from server.facts.moment import parse_moment
from server.record.book_of_lines import Record
from server.record.record_check import check_record
from server.work.sent_delivery import SentDelivery, from_folder
from server.work.take_deliveries import take_deliveries
from tests.record.fixtures import append
from tests.record.sample_lines import BEAD, DEVICE, FRAME, RECEIVED, entry_bytes, new_register, person


def sent(number: int, kind: str = "pass", *, at: int = RECEIVED, device: str = DEVICE, **further: Any) -> SentDelivery:
    return SentDelivery(f"D{number}-{at}", device, at - 200, at, entry_bytes(number, kind, **further))


def take(record: Record, *several: SentDelivery) -> tuple[Receipt, ...]:
    return take_deliveries(record, several).result()


def correction(number: int, of: int, at: int = RECEIVED) -> SentDelivery:
    return sent(number, "correction", at=at, of=f"{DEVICE}:b1:{of}", change={"joint": "J2"}, reason="wrong joint")


def test_a_repeat_under_another_delivery_is_the_same_entry(either: Record):
    """The entry's own id counts: sent again in another delivery it has the same place, its clocks are kept twice."""
    (first,) = take(either, sent(1))
    (again,) = take(either, sent(1, at=RECEIVED + 60_000))
    assert (again.taken, again.position, again.leaf, again.received) == (
        "taken before",
        first.position,
        first.leaf,
        first.received,
    )
    assert (first.delivery, again.delivery) == (f"D1-{RECEIVED}", f"D1-{RECEIVED + 60_000}")
    with either.reads() as reads:
        pairs = [(pair.seq, pair.mono_ms, pair.sent_ms, pair.received_ms) for pair in reads.clock_pairs()]
        assert len(reads.frame_entries(FRAME)) == 1
    assert pairs == [(1, 1000, RECEIVED - 200, RECEIVED), (1, 1000, RECEIVED + 59_800, RECEIVED + 60_000)]


def test_twice_in_one_request(either: Record):
    """Repeated and altered within one request, the first is taken, the repeat known and the other refused."""
    several = (sent(1), sent(1, at=RECEIVED + 5), sent(1, joint="J9", at=RECEIVED + 6))
    receipts = take(either, *several)
    assert [(each.taken, each.position) for each in receipts] == [
        ("taken", 1),
        ("taken before", 1),
        ("refused copy", 3),
    ]


def test_the_very_same_sending_told_again_adds_nothing(either: Record):
    """A shop folder loaded a second time tells the same sendings at the same times: no line is added."""
    told = (sent(1), sent(1, at=RECEIVED + 60_000), sent(1, joint="J9"), sent(2, values={"nonsense": {}}))
    first = take(either, *told)
    with either.reads() as reads:
        last = reads.last_position()
    second = take(either, *told)
    with either.reads() as reads:
        assert reads.last_position() == last == 4
    assert [each.taken for each in first] == ["taken", "taken before", "refused copy", "taken, not understood"]
    assert [each.taken for each in second] == ["taken before", "taken before", "refused copy", "taken before"]
    assert [each.position for each in second] == [1, 1, 3, 4]


def test_a_correction_stands_in_the_chains_of_what_it_mends(either: Record):
    """A correction comes under the frame of the entry it names, and into every chain that entry stands in."""
    take(either, sent(1))
    take(either, correction(2, of=1))
    take(either, sent(3, at=RECEIVED + 1), correction(4, of=3))
    line = ChainSubject("gas line", "T-1")
    with either.reads() as reads:
        assert [each.entry.seq for each in reads.frame_entries(FRAME)] == [1, 2, 3, 4]
        assert [each.entry.seq for each in reads.entries_by([line])] == [1, 2, 3, 4]
        stored = reads.lines_of_frame(FRAME)
    assert len(stored) == 4


def test_a_correction_before_its_entry_is_taken(either: Record):
    """A correction that arrives first is taken as it is and found with its frame once the entry is there."""
    take(either, correction(2, of=1))
    take(either, sent(1))
    with either.reads() as reads:
        assert [each.entry.seq for each in reads.frame_entries(FRAME)] == [2, 1]


def test_a_correction_of_a_bead_is_shared(either: Record):
    """What mends an entry of no frame belongs to no frame either, but to the bead's gas line."""
    take(either, sent(1, "bead", **BEAD), correction(2, of=1))
    with either.reads() as reads:
        assert [each.entry.seq for each in reads.shared_entries()] == [1, 2]
        assert [each.entry.seq for each in reads.entries_by([ChainSubject("gas line", "T-1")])] == [1, 2]


def test_a_refused_copy_stands_in_the_chains(either: Record):
    """A refused copy is a link in the chains of the entry it would have replaced, so it cannot be left out unseen."""
    take(either, sent(1), sent(1, joint="J9"))
    with either.reads() as reads:
        links = reads.links_between(2, 2)[2]
    assert {str(subject): place.number for subject, place in links} == {
        "frame F-1": 2,
        "gas line T-1": 2,
        "instrument PA-1": 2,
        "welder P1": 2,
    }


def test_what_was_not_understood_still_belongs_to_its_frame(either: Record):
    """An entry not understood that names a frame stands in that frame's chain and history, not among its entries."""
    (receipt,) = take(either, sent(1, values={"nonsense": {}}))
    assert receipt.taken == "taken, not understood"
    with either.reads() as reads:
        assert reads.frame_entries(FRAME) == []
        assert [line.state for line in reads.lines_of_frame(FRAME)] == ["taken, not understood"]
        assert [str(subject) for subject, _ in reads.links_between(1, 1)[1]] == ["frame F-1"]


def test_a_clock_an_hour_ahead_is_taken_and_said(either: Record):
    """A wrong clock rejects nothing: the entry is taken, its times are kept raw, and the receipt says how far off."""
    hour = 3_600_000
    ahead = sent(1, device_time="2025-03-18T13:38:05.000Z")._replace(sent_ms=RECEIVED + hour)
    (receipt,) = take(either, ahead)
    assert receipt.taken == "taken"
    assert "1 h 0 min ahead" in str(receipt.problem)
    with either.reads() as reads:
        (pair,) = reads.clock_pairs()
    assert (pair.sent_ms, pair.received_ms) == (RECEIVED + hour, RECEIVED)
    assert pair.device_ms == parse_moment("2025-03-18T13:38:05.000Z")


def test_a_sending_by_another_device_says_nothing_of_the_clock(either: Record):
    """An entry handed in by another device, as from a rescue file, is taken but makes no clock pair."""
    (receipt,) = take(either, sent(1, device="TAB-9"))
    assert receipt.taken == "taken"
    with either.reads() as reads:
        assert reads.clock_pairs() == []
        assert len(reads.frame_entries(FRAME)) == 1


def test_unknown_names_are_remarked_on(either: Record):
    """A frame without a packet, a joint the design does not have and an unknown person are said, and taken."""
    (receipt,) = take(either, sent(1))
    assert "frame is 'F-1', which has no packet" in str(receipt.problem)
    assert "who is 'P1', whom the record does not know" in str(receipt.problem)
    append(either, new_register(person()))
    (receipt,) = take(either, sent(2, "bead", **BEAD))
    assert receipt.problem is None


def test_the_statements_of_a_request_do_not_grow(either: Record):
    """One sending or two hundred, with repeats and corrections among them: the same number of statements."""

    def statements(first: int, count: int) -> int:
        new = [sent(first + number) for number in range(count)]
        again = [each._replace(received_ms=each.received_ms + 1) for each in new]
        mending = [correction(first + 5000 + number, of=first + number) for number in range(count)]
        with either.counting() as seen:
            take(either, *new)
            take(either, *again, *mending)
        return len(seen)

    statements(0, 1)
    assert statements(1000, 1) == statements(2000, 200)


def test_everything_taken_holds(file: Any, record: Record):
    """After all sorts of sendings the record rechecks without a word."""
    take(record, sent(1), sent(1, at=RECEIVED + 5), sent(1, joint="J9"), sent(2, values={"nonsense": {}}))
    take(record, correction(3, of=1), correction(4, of=99), sent(5, device="TAB-9"), sent(6, "bead", **BEAD))
    record.close()
    assert check_record(f"sqlite:///{file}", file.parent).odd == ()


def test_a_folders_delivery_keeps_its_times():
    """A delivery of a shop folder arrives when the folder says it did; without that, now."""
    told = {"id": "D-1", "device": "IMPORT", "line": "{}"}
    imported = Delivery.model_validate(told | {"received_at": "2025-03-18T12:40:00.000Z"})
    assert from_folder(imported, 5).received_ms == RECEIVED
    assert from_folder(Delivery.model_validate(told), 5) == SentDelivery("D-1", "IMPORT", None, 5, b"{}")


@pytest.mark.parametrize("name", ["TAB-1:b1:1", "Ø-1"])
def test_whatever_the_name_the_record_finds_it(either: Record, name: str):
    """Ids with any printable letters are found again."""
    take(either, sent(1, id=name))
    with either.reads() as reads:
        assert reads.line(name) is not None


def test_a_repeat_still_says_that_it_was_not_understood(either: Record):
    """Whose first answer was lost learns from the repeat that the entry has to be logged again."""
    unclear = sent(1, values={"nonsense": {}})
    receipts = [*take(either, unclear), *take(either, sent(1, values={"nonsense": {}}, at=RECEIVED + 60_000))]
    assert [(each.taken, each.understood) for each in receipts] == [
        ("taken, not understood", False),
        ("taken before", False),
    ]
    assert take(either, sent(2))[0].understood
