"""True times from what sendings say: slow clocks, clocks mended within a start, silent tablets, paper."""

from dataclasses import dataclass, field

import pytest

from server.facts.came_before import came_before
from server.facts.clock import ClockPair
from server.facts.supplies import Problem
from server.occasions.clocks import Clocks

MINUTE = 60_000
HOUR = 60 * MINUTE
DAY = 24 * HOUR
T0 = 1_900_000_000_000


@dataclass
class Tablet:
    """A tablet told in true times: it was started, its clock was off by so much, it tapped entries and sent them."""

    name: str = "TAB"
    boot: str = "b1"
    started: int = T0
    off: int = 0
    seq: int = 0
    pairs: list[ClockPair] = field(default_factory=list)

    def tap(self, at: int, told: int | None = None) -> Problem:
        self.seq += 1
        happened = at if told is None else told
        return Problem.model_construct(
            kind="problem", id=f"{self.name}-{self.seq}", device=self.name, boot=self.boot, seq=self.seq,
            mono_ms=at - self.started, device_time=at + self.off, happened=happened + self.off, who="ANN", words="",
        )  # fmt: skip

    def send(self, entry: Problem, at: int, takes: int = 300) -> None:
        told = (entry.boot, entry.seq, entry.mono_ms, entry.device_time)
        self.pairs.append(ClockPair(self.name, *told, at + self.off, at + takes))

    def tap_and_send(self, at: int, takes: int = 300) -> Problem:
        entry = self.tap(at)
        self.send(entry, at + 2000, takes)
        return entry

    def start_again(self, at: int, boot: str, off: int) -> None:
        self.boot, self.started, self.off = boot, at, off


def truly(tablet: Tablet, entry: Problem) -> int:
    return Clocks(tablet.pairs).stamp(entry).at_ms


def test_a_slow_clock_is_put_right_whatever_it_said():
    """A tablet 47 minutes slow tells times that come out right to within the network's delay."""
    tablet = Tablet(off=-2_830_000)
    entries = [tablet.tap_and_send(T0 + number * MINUTE) for number in range(1, 6)]
    assert [truly(tablet, e) - (T0 + n * MINUTE) for n, e in enumerate(entries, 1)] == [pytest.approx(300)] * 5


def test_entries_that_waited_rest_on_the_counter_when_the_clock_was_mended_before_they_were_sent():
    """Tapped while the clock was slow, sent after automatic time came back in the same start: still put right."""
    tablet = Tablet(off=-2_830_000)
    for number in range(1, 20):
        tablet.tap_and_send(T0 + number * HOUR)
    waiting = [tablet.tap(T0 + 20 * HOUR + number * MINUTE) for number in range(7)]
    tablet.off = 0
    for entry in waiting:
        tablet.send(entry, T0 + 21 * HOUR)
    tablet.tap_and_send(T0 + 22 * HOUR)
    assert [truly(tablet, e) - (T0 + 20 * HOUR + n * MINUTE) for n, e in enumerate(waiting)] == [300] * 7


def test_the_stretches_of_a_clock_are_told_with_what_was_sent_after_mending():
    """Slow until it was mended, right afterwards: two stretches, and the seven entries sent late are counted."""
    tablet = Tablet(off=-2_830_000)
    for number in range(1, 20):
        tablet.tap_and_send(T0 + number * HOUR)
    waiting = [tablet.tap(T0 + 20 * HOUR + number * MINUTE) for number in range(7)]
    tablet.off = 0
    for entry in waiting:
        tablet.send(entry, T0 + 21 * HOUR)
    tablet.tap_and_send(T0 + 22 * HOUR)
    slow, right = Clocks(tablet.pairs).segments()
    assert (slow.offset_ms, len(slow.entries), slow.after_mending) == (-2_830_300, 26, 7)
    assert slow.since_ms == T0 + 300
    assert slow.until_ms == T0 + 21 * HOUR + 300
    assert (right.offset_ms, len(right.entries), right.after_mending) == (-300, 1, 0)


def test_days_without_a_network_cost_only_the_drift():
    """Entries that wait four days in one start keep their times; the error grows with the days, to some seconds."""
    tablet = Tablet()
    tablet.tap_and_send(T0 + HOUR)
    lost = tablet.tap(T0 + 2 * DAY)
    tablet.send(lost, T0 + 4 * DAY)
    stamp = Clocks(tablet.pairs).stamp(lost)
    assert stamp.at_ms == T0 + 2 * DAY + 300
    assert 5_000 < stamp.error_ms < 15_000
    near = Clocks(tablet.pairs).stamp(tablet.tap(T0 + HOUR + MINUTE))
    assert near.error_ms < 1_000


def test_an_old_start_rests_on_its_own_contacts_not_on_the_new_clock():
    """The battery went flat with entries unsent; the next start runs an hour fast and sends them: they stay right."""
    tablet = Tablet()
    tablet.tap_and_send(T0 + HOUR)
    unsent = tablet.tap(T0 + HOUR + 6 * MINUTE)
    tablet.start_again(T0 + 13 * DAY, "b2", off=HOUR)
    tablet.tap_and_send(T0 + 13 * DAY + MINUTE)
    tablet.send(unsent, T0 + 13 * DAY + 2 * MINUTE)
    assert truly(tablet, unsent) == T0 + HOUR + 6 * MINUTE + 300


def test_a_start_that_never_spoke_to_us_is_believed_with_an_hour_of_doubt():
    """All its entries came under the next start: the clock of the time is all there is, and the error says so."""
    tablet = Tablet()
    unsent = tablet.tap(T0 + HOUR)
    tablet.start_again(T0 + 13 * DAY, "b2", off=HOUR)
    tablet.tap_and_send(T0 + 13 * DAY + MINUTE)
    tablet.send(unsent, T0 + 13 * DAY + 2 * MINUTE)
    stamp = Clocks(tablet.pairs).stamp(unsent)
    assert stamp.at_ms == T0 + HOUR
    assert stamp.error_ms == HOUR


def test_a_start_that_never_spoke_and_runs_ahead_is_not_later_than_its_arrival():
    """A clock a month ahead tells of a time after the entry arrived: it is put before, and the doubt covers it."""
    tablet = Tablet(off=30 * DAY)
    unsent = tablet.tap(T0 + HOUR)
    tablet.start_again(T0 + 2 * HOUR, "b2", off=0)
    tablet.tap_and_send(T0 + 3 * HOUR)
    tablet.send(unsent, T0 + 3 * HOUR + MINUTE)
    stamp = Clocks(tablet.pairs).stamp(unsent)
    assert stamp.at_ms <= T0 + 3 * HOUR + MINUTE + 300
    assert stamp.error_ms > 29 * DAY


def test_a_slow_network_now_and_then_moves_nothing():
    """One sending that took eight seconds among prompt ones leaves the times where they were."""
    tablet = Tablet()
    entries = [tablet.tap_and_send(T0 + n * MINUTE, takes=8_000 if n == 3 else 200) for n in range(1, 8)]
    assert [truly(tablet, e) - (T0 + n * MINUTE) for n, e in enumerate(entries, 1)] == [200] * 7


def test_repeats_of_an_entry_change_no_time():
    """An entry sent again days later gives a second pair and the same true time."""
    tablet = Tablet()
    entry = tablet.tap_and_send(T0 + MINUTE)
    before = truly(tablet, entry)
    tablet.send(entry, T0 + 3 * DAY)
    assert truly(tablet, entry) == before


def test_what_happened_before_the_tap_keeps_its_distance_from_it():
    """A late entry tells of half an hour before its tap, and comes out half an hour before its true tap."""
    tablet = Tablet(off=-2_830_000)
    tablet.tap_and_send(T0 + MINUTE)
    late = tablet.tap(T0 + HOUR, told=T0 + HOUR - 30 * MINUTE)
    tablet.send(late, T0 + HOUR + 2000)
    assert truly(tablet, late) == T0 + HOUR - 30 * MINUTE + 300


def test_paper_is_believed_to_the_minute():
    """An imported line has no counter: its time stands as written, with a minute of doubt."""
    paper = Tablet(name="PAPER").tap(T0).model_copy(update={"boot": None, "mono_ms": None})
    stamp = Clocks([]).stamp(paper)
    assert (stamp.at_ms, stamp.error_ms, stamp.boot) == (T0, MINUTE, None)


def test_order_inside_one_start_is_the_counters_and_across_tablets_what_the_clocks_can_tell():
    """A second apart is provable on one tablet and not across two; a minute apart is provable across two."""
    one, other = Tablet(), Tablet(name="TAB2", off=-2_830_000)
    first, second = one.tap_and_send(T0 + MINUTE), one.tap_and_send(T0 + MINUTE + 1)
    near, far = other.tap_and_send(T0 + MINUTE + 900), other.tap_and_send(T0 + 2 * MINUTE)
    clocks = Clocks([*one.pairs, *other.pairs])
    stamps = [clocks.stamp(each) for each in (first, second, near, far)]
    assert came_before(stamps[0], stamps[1]) is True
    assert came_before(stamps[1], stamps[0]) is False
    assert came_before(stamps[0], stamps[2]) is None
    assert came_before(stamps[0], stamps[3]) is True
    assert came_before(stamps[3], stamps[0]) is False


def test_two_starts_of_one_tablet_are_ordered_by_its_own_count_when_clocks_cannot_tell():
    """Within the doubt of their times, the entry with the lower count came first."""
    tablet = Tablet()
    old = tablet.tap(T0 + HOUR)
    tablet.start_again(T0 + HOUR + MINUTE, "b2", off=0)
    new = tablet.tap_and_send(T0 + HOUR + 2 * MINUTE)
    tablet.send(old, T0 + HOUR + 3 * MINUTE)
    clocks = Clocks(tablet.pairs)
    assert came_before(clocks.stamp(old), clocks.stamp(new)) is True
    assert came_before(clocks.stamp(new), clocks.stamp(old)) is False
