"""Every pass in short: what it used and when, by gas line, instrument, welder and sleeve, and which came first."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple, TypeVar

from server.facts.clock import Stamp
from server.facts.layered import differing
from server.facts.occasion_pass import GasOn
from server.occasions.days import Days
from server.occasions.filed import in_order_again, refiled
from server.occasions.gas import GasTable
from server.occasions.purging import arc_start_ms
from server.occasions.spans import Spans
from server.occasions.timed import Timed

Made = TypeVar("Made")
_Filed = Mapping[str, Sequence["Use"]]
# Where clocks are set back at midnight, the last hour before it belongs to the new day as well.
_SET_BACK_MS = 2 * 3_600_000
FAR_MS = 1 << 62
"""Later than every pass."""


_COUNTED = ("mean_current", "volts", "arc_on")
READ_OF_A_PASS = ("oxygen", *_COUNTED)
"""The values of a pass that are kept of it in short."""


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
    position: int

    @property
    def subject(self) -> str:
        """The joint and attempt the pass belongs to."""
        return f"{self.frame}/{self.joint}#{self.attempt}"


class Uses:
    """All passes known, in true time; a change gives others, which share every list in which nothing changed."""

    def __init__(self, gas: GasTable, days: Days) -> None:
        self._gas = gas
        self._days = days
        self.all: Sequence[Use] = []
        self.by_line: Mapping[str, Sequence[Use]] = {}
        self.by_instrument: Mapping[str, Sequence[Use]] = {}
        self.by_welder: Mapping[str, Sequence[Use]] = {}
        self.by_frame: Mapping[str, Sequence[Use]] = {}
        self.by_sleeve: Mapping[str, Sequence[Use]] = {}
        self._readings: dict[str, Spans[str]] = {}
        self._first: dict[tuple[str, int | str | None], Use | None] = {}
        self._lines_of: dict[str, frozenset[str]] = {}
        self._made: dict[str, tuple[dict[str, int], set[str]]] = {}

    def with_changes(self, gone: Sequence[Use], more: Sequence[Use], gas: GasTable) -> "Uses":
        """Give the passes without some and with further ones, on the gas as it is known by now."""
        found = Uses(gas, self._days)
        found.all = in_order_again(self.all, gone, more, _in_order) if gone or more else self.all
        found.by_line = refiled(self.by_line, gone, more, lambda use: use.lines, _in_order)
        found.by_instrument = refiled(self.by_instrument, gone, more, _instruments, _in_order)
        found.by_welder = refiled(self.by_welder, gone, more, lambda use: (use.welder,), _in_order)
        found.by_frame = refiled(self.by_frame, gone, more, lambda use: (use.frame,), _in_order)
        found.by_sleeve = refiled(self.by_sleeve, gone, more, _sleeves, _in_order)
        found._readings = _where_same(self._readings, self.by_line, found.by_line)
        found._lines_of = _where_same(self._lines_of, self.by_instrument, found.by_instrument)
        found._made = _where_same(self._made, self.by_frame, found.by_frame)
        return found

    def between(self, since_ms: int, until_ms: int) -> Sequence[Use]:
        """Give the passes that ended after `since` and before `until`."""
        return self._between(self.all, since_ms, until_ms)

    def resting_on(self, instrument: str, since_ms: int = -FAR_MS, until_ms: int = FAR_MS) -> Sequence[Use]:
        """Give the passes an instrument read or counted, or whose line it was the last to read, in true time; those
        that ended after `since` and before `until`."""
        on_them = (
            use
            for line in self.lines_read_by(instrument)
            for use in self.on_line(line, since_ms, until_ms)
            if use.purge_line == line
        )
        unread = [use for use in on_them if not use.oxygen_by]
        inherited = [use for use in unread if self.analyser_at(use.purge_line, use.at.at_ms) == instrument]
        return self.in_order([*self.read_by(instrument, since_ms, until_ms), *inherited])

    def lines_read_by(self, instrument: str) -> frozenset[str]:
        """Give the lines whose gas an instrument read under a pass."""
        found = self._lines_of.get(instrument)
        if found is None:
            own = self.by_instrument.get(instrument, ())
            lines = {use.purge_line for use in own if use.purge_line and use.oxygen_by == instrument}
            found = self._lines_of[instrument] = frozenset(lines)
        return found

    def in_order(self, uses: Iterable[Use]) -> Sequence[Use]:
        """Give some passes in true time, each once."""
        return sorted({use.entry: use for use in uses}.values(), key=_in_order)

    def on_line(self, line: str, since_ms: int, until_ms: int) -> Sequence[Use]:
        """Give the passes on a line that ended after `since` and before `until`."""
        return self._between(self.by_line.get(line), since_ms, until_ms)

    def by_whom(self, welder: str, since_ms: int, until_ms: int) -> Sequence[Use]:
        """Give the passes of a welder that ended after `since` and before `until`."""
        return self._between(self.by_welder.get(welder), since_ms, until_ms)

    def read_by(self, instrument: str, since_ms: int, until_ms: int) -> Sequence[Use]:
        """Give the passes an instrument read or counted, ended after `since` and before `until`."""
        return self._between(self.by_instrument.get(instrument), since_ms, until_ms)

    @staticmethod
    def _between(uses: Sequence[Use] | None, since_ms: int, until_ms: int) -> Sequence[Use]:
        if not uses:
            return []
        return uses[bisect_right(uses, since_ms, key=_ended_ms) : bisect_left(uses, until_ms, key=_ended_ms)]

    def made_again(self, use: Use) -> bool:
        """Tell whether the joint was cut out and made anew after this attempt."""
        return self._made_of(use.frame)[0].get(use.joint, 0) > use.attempt

    def welded(self, frame: str) -> set[str]:
        """Give the joints of a frame on which an arc was struck."""
        return self._made_of(frame)[1]

    def first_of_shift(self, line: str, day: int, at_ms: int, entry: str) -> bool:
        """Tell whether no pass on this line that day came before this one."""
        if (line, day) not in self._first:
            start_ms = self._days.start_ms(day) - _SET_BACK_MS
            self._first[line, day] = self._first_from(line, start_ms, lambda use: use.day == day)
        return _is_first(self._first[line, day], at_ms, entry)

    def first_on_cylinder(self, gas: GasOn | None, at_ms: int, entry: str) -> bool:
        """Tell whether no pass on this line came between this cylinder's coming on and this pass."""
        if gas is None or gas.changed is None:
            return False
        line, change, since_ms = gas.line, gas.change_entry, gas.changed.at_ms
        if (line, change) not in self._first:
            self._first[line, change] = self._first_from(line, since_ms, lambda use: self._under(line, use) == change)
        return _is_first(self._first[line, change], at_ms, entry)

    def analyser_at(self, line: str | None, at_ms: int) -> str | None:
        """Give the instrument that last read the gas of a line; a pass that inherits its reading rests on it."""
        if line is None:
            return None
        spans = self._readings.get(line)
        if spans is None:
            read = ((u.at.at_ms, u.oxygen_by) for u in self.by_line.get(line, ()) if u.purge_line == line)
            spans = self._readings[line] = Spans((ms, by) for ms, by in read if by is not None)
        return spans.at(at_ms)

    def _first_from(self, line: str, since_ms: int, counts: Callable[[Use], bool]) -> Use | None:
        uses = self.by_line.get(line, [])
        places = range(bisect_left(uses, since_ms, key=_ended_ms), len(uses))
        return next((uses[place] for place in places if counts(uses[place])), None)

    def _under(self, line: str, use: Use) -> str | None:
        on = self._gas.at(line, use.at.at_ms)
        return on.change_entry if on else None

    def _made_of(self, frame: str) -> tuple[dict[str, int], set[str]]:
        """By joint the last attempt at it that was no repair, and every joint of the frame that has a pass."""
        known = self._made.get(frame)
        if known is None:
            last: dict[str, int] = {}
            uses = self.by_frame.get(frame, ())
            for use in uses:
                if use.run != "repair":
                    last[use.joint] = max(use.attempt, last.get(use.joint, 0))
            known = self._made[frame] = last, {use.joint for use in uses}
        return known


def _is_first(first: Use | None, at_ms: int, entry: str) -> bool:
    """Tell whether the first that counts is this pass, or comes after it."""
    return first is None or first.entry == entry or at_ms < first.at.at_ms


def _where_same(made: dict[str, Made], before: _Filed, now: _Filed) -> dict[str, Made]:
    # Whoever looks at the passes before goes on reading into this.
    found = made.copy()
    for name in differing(before, now):
        found.pop(name, None)
    return found


def _instruments(use: Use) -> set[str]:
    return {each for each in (use.oxygen_by, use.machine) if each}


def _sleeves(use: Use) -> tuple[str, ...]:
    return (use.sleeve,) if use.sleeve else ()


def use_of(timed: Timed, days: Days) -> Use:
    """Give a pass in short."""
    entry = timed.entry
    values = entry.values
    oxygen = values.get("oxygen")
    counted = tuple(values[name].value for name in _COUNTED if name in values)
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
        position=timed.position,
    )


def _ended_ms(use: Use) -> int:
    return use.at.at_ms


def _in_order(use: Use) -> tuple[int, str, int, int]:
    return use.at.at_ms, use.at.device, use.at.seq, use.position
