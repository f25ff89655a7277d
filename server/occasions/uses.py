"""Every pass in short: what it used and when, by gas line, instrument, welder and sleeve, and which came first."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.occasion_pass import GasOn
from server.occasions.days import Days
from server.occasions.gas import GasTable
from server.occasions.purging import arc_start_ms
from server.occasions.spans import Spans
from server.occasions.timed import Timed


class Use(NamedTuple):
    """One pass in short."""

    at: Stamp
    started_ms: int
    day: int
    frame: str
    joint: str
    attempt: int
    run: str
    entry: str
    lines: tuple[str, ...]
    purge_line: str | None
    welder: str
    sleeve: str | None
    machine: str | None
    oxygen_ppm: float | None
    oxygen_by: str | None
    oxygen_read: bool
    counted: tuple[float, ...]

    @property
    def subject(self) -> str:
        """The joint and attempt the pass belongs to."""
        return f"{self.frame}/{self.joint}#{self.attempt}"


class Uses:
    """All passes known, in true time."""

    def __init__(self, passes: Iterable[Timed], days: Days, gas: GasTable) -> None:
        self.all = [_use(each, days) for each in passes]
        self.by_line: dict[str, list[Use]] = defaultdict(list)
        self.by_instrument: dict[str, list[Use]] = defaultdict(list)
        self.by_welder: dict[str, list[Use]] = defaultdict(list)
        self.by_frame: dict[str, list[Use]] = defaultdict(list)
        self.by_sleeve: dict[str, list[Use]] = defaultdict(list)
        self._last_made: dict[tuple[str, str], int] = {}
        self._welded: dict[str, set[str]] = defaultdict(set)
        self._readings: dict[str, Spans[str]] = {}
        self._first: dict[tuple[str, int | str], tuple[int, str]] = {}
        for use in self.all:
            for line in use.lines:
                self.by_line[line].append(use)
            for instrument in {use.oxygen_by, use.machine} - {None}:
                self.by_instrument[str(instrument)].append(use)
            self.by_welder[use.welder].append(use)
            self.by_frame[use.frame].append(use)
            if use.sleeve:
                self.by_sleeve[use.sleeve].append(use)
            self._welded[use.frame].add(use.joint)
            if use.run != "repair":
                self._last_made[use.frame, use.joint] = max(use.attempt, self._last_made.get((use.frame, use.joint), 0))
            self._note_first(use, gas)

    def between(self, since_ms: int, until_ms: int) -> list[Use]:
        """Give the passes that ended after `since` and before `until`."""
        return self._between(self.all, since_ms, until_ms)

    def resting_on(self, instrument: str) -> list[Use]:
        """Give the passes an instrument read or counted, or whose line it was the last to read, in true time."""
        own = self.by_instrument.get(instrument, [])
        lines = {use.purge_line for use in own if use.purge_line and use.oxygen_by == instrument}
        unread = [use for line in lines for use in self.by_line[line] if use.purge_line == line and not use.oxygen_by]
        inherited = [use for use in unread if self.analyser_at(use.purge_line, use.at.at_ms) == instrument]
        return self.in_order([*own, *inherited])

    def in_order(self, uses: Iterable[Use]) -> list[Use]:
        """Give some passes in true time, each once."""
        return sorted({use.entry: use for use in uses}.values(), key=_in_order)

    def on_line(self, line: str, since_ms: int, until_ms: int) -> list[Use]:
        """Give the passes on a line that ended after `since` and before `until`."""
        return self._between(self.by_line.get(line), since_ms, until_ms)

    def read_by(self, instrument: str, since_ms: int, until_ms: int) -> list[Use]:
        """Give the passes an instrument read or counted, ended after `since` and before `until`."""
        return self._between(self.by_instrument.get(instrument), since_ms, until_ms)

    @staticmethod
    def _between(uses: list[Use] | None, since_ms: int, until_ms: int) -> list[Use]:
        if not uses:
            return []
        return uses[bisect_right(uses, since_ms, key=_ended_ms) : bisect_left(uses, until_ms, key=_ended_ms)]

    def made_again(self, use: Use) -> bool:
        """Tell whether the joint was cut out and made anew after this attempt."""
        return self._last_made.get((use.frame, use.joint), 0) > use.attempt

    def welded(self, frame: str) -> set[str]:
        """Give the joints of a frame on which an arc was struck."""
        return self._welded.get(frame, set())

    def first_of_shift(self, line: str, day: int, at_ms: int, entry: str) -> bool:
        """Tell whether no pass on this line that day came before this one."""
        return self._is_first((line, day), at_ms, entry)

    def first_on_cylinder(self, gas: GasOn | None, at_ms: int, entry: str) -> bool:
        """Tell whether no pass on this line came between this cylinder's coming on and this pass."""
        if gas is None or gas.change_entry is None:
            return False
        return self._is_first((gas.line, gas.change_entry), at_ms, entry)

    def analyser_at(self, line: str | None, at_ms: int) -> str | None:
        """Give the instrument that last read the gas of a line; a pass that inherits its reading rests on it."""
        if line is None:
            return None
        spans = self._readings.get(line)
        if spans is None:
            read = ((u.at.at_ms, u.oxygen_by) for u in self.by_line.get(line, ()) if u.purge_line == line)
            spans = self._readings[line] = Spans((ms, by) for ms, by in read if by is not None)
        return spans.at(at_ms)

    def _is_first(self, key: tuple[str, int | str], at_ms: int, entry: str) -> bool:
        known = self._first.get(key)
        return known is None or known[1] == entry or at_ms < known[0]

    def _note_first(self, use: Use, gas: GasTable) -> None:
        at_ms, entry = use.at.at_ms, use.entry
        for line in use.lines:
            if self._is_first((line, use.day), at_ms, entry):
                self._first[line, use.day] = (at_ms, entry)
            on = gas.at(line, at_ms)
            change = on.change_entry if on else None
            if change is not None and self._is_first((line, change), at_ms, entry):
                self._first[line, change] = (at_ms, entry)


def _use(timed: Timed, days: Days) -> Use:
    entry = timed.entry
    values = entry.values
    oxygen = values.get("oxygen")
    counted = tuple(values[name].value for name in ("mean_current", "volts", "arc_on") if name in values)
    lines = tuple(dict.fromkeys(filter(None, (entry.torch_line, entry.trailing_line, entry.purge_line))))
    return Use(
        at=timed.at,
        started_ms=arc_start_ms(timed),
        day=days.day_of(timed.at.at_ms),
        frame=entry.frame,
        joint=entry.joint,
        attempt=entry.attempt,
        run=entry.run,
        entry=entry.id,
        lines=lines,
        purge_line=entry.purge_line,
        welder=entry.who,
        sleeve=entry.sleeve,
        machine=entry.machine,
        oxygen_ppm=oxygen.value if oxygen else None,
        oxygen_by=oxygen.by if oxygen else None,
        oxygen_read=oxygen is not None and oxygen.how in ("read", "typed"),
        counted=counted,
    )


def _ended_ms(use: Use) -> int:
    return use.at.at_ms


def _in_order(use: Use) -> tuple[int, str, int]:
    return use.at.at_ms, use.at.device, use.at.seq
