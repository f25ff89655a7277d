"""What the trace screens are asked: for which pass, by which instrument, how the file is read, which beads."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields

from server.facts.entry import QUARTERS
from server.pages.traces.page import RUNS
from server.work.log_beads import BeadAsked
from server.work.refusal import Unreadable
from server.work.trace_read import ReadAs

_READ_FIELDS = tuple(each.name for each in fields(ReadAs))
ALL_ROUND = "all"


@dataclass(frozen=True, slots=True)
class LookAsked:
    """One recording beside one pass; `beads` are those ticked, none for all of them."""

    of: str
    instrument: str
    read_as: ReadAs
    beads: tuple[int, ...] = ()

    @property
    def carried(self) -> tuple[tuple[str, str], ...]:
        """The same as fields, to be carried from page to page."""
        told = {name: getattr(self.read_as, name) for name in _READ_FIELDS if name != "clamp_reversed"}
        reversed_clamp = {"clamp_reversed": "yes"} if self.read_as.clamp_reversed else {}
        every = {"of": self.of, "instrument": self.instrument, **told, **reversed_clamp}
        return tuple((name, value) for name, value in every.items() if value)


def look_asked(items: Iterable[tuple[str, str]]) -> LookAsked:
    """Read the fields of an address or a form; a bead that is no number is refused by name."""
    told = list(items)
    single = dict(told)
    beads = tuple(_number(value) for name, value in told if name == "bead")
    return LookAsked(single.get("of", ""), single.get("instrument", ""), read_as_of(single), beads)


def read_as_of(single: Mapping[str, str]) -> ReadAs:
    """Read how a file is to be read; an empty unit is the usual one."""
    named = {name: single[name].strip() for name in _READ_FIELDS if single.get(name, "").strip()}
    return ReadAs(**{**named, "clamp_reversed": bool(named.get("clamp_reversed"))})  # type: ignore[arg-type]


def beads_to_log(items: Iterable[tuple[str, str]]) -> list[BeadAsked]:
    """Read which beads are to be logged as passes, each with its run and its quarters."""
    told = list(items)
    single = dict(told)
    return [_bead(_number(value), single) for name, value in told if name == "log"]


def _bead(number: int, single: Mapping[str, str]) -> BeadAsked:
    run, quarters = single.get(f"run_{number}", ""), single.get(f"quarters_{number}", "")
    if run not in RUNS:
        raise Unreadable(f"run of bead {number}: {run!r}; expected one of {', '.join(RUNS)}; choose it")
    if quarters != ALL_ROUND and quarters not in QUARTERS:
        raise Unreadable(f"quarters of bead {number}: {quarters!r}; expected all round or one quarter; choose it")
    return BeadAsked(number, run, QUARTERS if quarters == ALL_ROUND else (quarters,))  # type: ignore[arg-type]


def _number(value: str) -> int:
    if not (value.isascii() and value.isdecimal() and len(value) < 6):
        raise Unreadable(f"bead: {value[:20]!r}; expected the number of a bead; tick it in the table")
    return int(value)
