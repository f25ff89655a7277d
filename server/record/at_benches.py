"""Which cylinder came onto each gas line last and which rod sleeves are open: read once, then carried on."""

import json
import threading
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, TypeAlias

_CHANGE = ("kind", "id", "line", "on", "fill_lot", "happened")
_ACT = ("kind", "id", "sleeve", "act", "bench", "happened")

Told: TypeAlias = dict[str, Any]
Row: TypeAlias = tuple[int, bytes]
"""A position, and an entry's body as it was sent."""
Read: TypeAlias = Callable[[int, int], Iterable[Row]]
Things: TypeAlias = Collection[tuple[str, str]]
"""Gas lines and sleeves, each with the word for its kind."""
ReadAbout: TypeAlias = Callable[[Things, int], Iterable[Row]]
_When: TypeAlias = tuple[str, int]


@dataclass(frozen=True)
class AtBenches:
    """The last change of each line, the acts on each sleeve since it was last closed, and corrections of no frame.

    What is withdrawn is kept by its id, since that can arrive before what it withdraws; so is what put a cylinder on
    or opened a sleeve, by which it is known whether one was taken from stock before.
    """

    changes: Mapping[str, tuple[_When, Told]] = field(default_factory=dict)
    closed: Mapping[str, _When] = field(default_factory=dict)
    acts: Mapping[str, tuple[tuple[_When, Told], ...]] = field(default_factory=dict)
    corrections: tuple[Row, ...] = ()
    withdrawn: frozenset[str] = frozenset()
    closed_by: Mapping[str, str] = field(default_factory=dict)
    taken_by: Mapping[tuple[str, str | None], frozenset[str]] = field(default_factory=dict)

    def shared(self, lines: Iterable[str], bench: str | None = None) -> list[Told]:
        """Give the last change of some lines and the acts on every open sleeve, in the order they happened.

        With a bench only the acts on sleeves that were opened there, or nobody said where.
        """
        found = [self.changes[line] for line in lines if line in self.changes]
        sleeves = self.acts if bench is None else {*self._opened_at.get(bench, ()), *self._opened_at.get(None, ())}
        found += [act for sleeve in sleeves for act in self.acts[sleeve]]
        return [told for _, told in sorted(found, key=_when)]

    @cached_property
    def line_of(self) -> Mapping[str, str]:
        """The line each cylinder hangs on now."""
        return {told["on"]: line for line, (_, told) in self.changes.items() if told.get("on")}

    @cached_property
    def open_at(self) -> Mapping[str, str]:
        """The bench each sleeve is open at, where that was said."""
        acts = [acts[-1][1] for acts in self.acts.values()]
        return {each["sleeve"]: each["bench"] for each in acts if each["act"] == "opened" and each.get("bench")}

    @cached_property
    def _opened_at(self) -> Mapping[str | None, frozenset[str]]:
        found: dict[str | None, set[str]] = {}
        for sleeve, acts in self.acts.items():
            for _, told in acts:
                if told["act"] == "opened":
                    found.setdefault(told.get("bench"), set()).add(sleeve)
        return {bench: frozenset(sleeves) for bench, sleeves in found.items()}

    def taken_before(self, name: str, fill_lot: str | None = None) -> bool:
        """Tell whether a sleeve was opened, or a cylinder of that fill put on a line, and it was not taken back."""
        told = self.taken_by.get((name, fill_lot), frozenset()) | self.taken_by.get((name, None), frozenset())
        return not told <= self.withdrawn


class KnownAtBenches:
    """What is known by now; shared by all readers, so it is never changed, only made anew."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._known = AtBenches()
        self._newest = self._read_to = 0

    def up_to(self, position: int, read: Read, read_about: ReadAbout) -> AtBenches:
        """Give it as known at a position, reading only what came since; for who looks further back it is read anew.

        Where the last thing known of a line or a sleeve is withdrawn, all that was told about that one is read again.
        """
        with self._lock:
            if position > self._read_to:
                rows = list(read(self._read_to, position))
                if rows:
                    before = _without(self._known, _withdrawn(rows), self._read_to, read_about)
                    self._known, self._newest = with_rows(before, rows), rows[-1][0]
                self._read_to = position
            if position >= self._newest:
                return self._known
        return with_rows(AtBenches(), list(read(0, position)))


def with_rows(known: AtBenches, rows: Iterable[Row]) -> AtBenches:
    """Give what is known with further entries read into it; none of them withdraws one that is known already."""
    told = [(position, body, json.loads(body)) for position, body in rows]
    mending = [each for each in told if each[2]["kind"] == "correction"]
    withdrawn = known.withdrawn | {entry["of"] for _, _, entry in mending if entry.get("withdraw")}
    changes, closed, acts = dict(known.changes), dict(known.closed), dict(known.acts)
    closed_by, taken_by = dict(known.closed_by), dict(known.taken_by)
    for position, _, entry in told:
        when = str(entry["happened"]), position
        if entry["id"] in withdrawn:
            continue
        if entry["kind"] == "cylinder":
            _change(changes, when, entry)
            _take(taken_by, (entry.get("on"), entry.get("fill_lot")), entry)
        elif entry["kind"] == "sleeve" and entry["act"] != "checked":
            _act(closed, closed_by, acts, when, entry)
            _take(taken_by, (entry["sleeve"], None), entry)
    corrections = tuple((position, body) for position, body, _ in mending)
    return AtBenches(changes, closed, acts, known.corrections + corrections, withdrawn, closed_by, taken_by)


def _change(changes: dict[str, tuple[_When, Told]], when: _When, entry: Told) -> None:
    last = changes.get(entry["line"])
    if last is None or last[0] < when:
        changes[entry["line"]] = when, _short(entry, _CHANGE)


def _take(taken_by: dict[tuple[str, str | None], frozenset[str]], what: tuple[Any, Any], entry: Told) -> None:
    if what[0]:
        taken_by[what] = taken_by.get(what, frozenset()) | {entry["id"]}


def _act(
    closed: dict[str, _When],
    closed_by: dict[str, str],
    acts: dict[str, tuple[tuple[_When, Told], ...]],
    when: _When,
    entry: Told,
) -> None:
    sleeve = entry["sleeve"]
    if when < closed.get(sleeve, when):
        return
    since = acts.pop(sleeve, ())
    if entry["act"] == "closed":
        closed[sleeve], closed_by[sleeve] = when, entry["id"]
        since = tuple(each for each in since if each[0] > when)
    else:
        since = (*since, (when, _short(entry, _ACT)))
    if since:
        acts[sleeve] = since


def _short(entry: Told, names: Iterable[str]) -> Told:
    return {name: entry[name] for name in names if name in entry}


def _withdrawn(rows: Iterable[Row]) -> frozenset[str]:
    """The entries that some rows take back."""
    may = (json.loads(body) for _, body in rows if b'"withdraw"' in body or b"\\" in body)
    return frozenset(entry["of"] for entry in may if entry["kind"] == "correction" and entry.get("withdraw"))


def _without(known: AtBenches, names: frozenset[str], read_to: int, read_about: ReadAbout) -> AtBenches:
    """Give what is known without some entries; of a thing whose last one is among them all is read again."""
    lines = {line for line, (_, told) in known.changes.items() if told["id"] in names} if names else set()
    sleeves = {sleeve for sleeve, name in known.closed_by.items() if name in names} if names else set()
    sleeves |= {sleeve for sleeve, acts in known.acts.items() if any(told["id"] in names for _, told in acts)}
    if not lines and not sleeves:
        return known
    left = replace(
        known,
        changes={line: each for line, each in known.changes.items() if line not in lines},
        closed={sleeve: each for sleeve, each in known.closed.items() if sleeve not in sleeves},
        acts={sleeve: each for sleeve, each in known.acts.items() if sleeve not in sleeves},
        closed_by={sleeve: each for sleeve, each in known.closed_by.items() if sleeve not in sleeves},
        withdrawn=known.withdrawn | names,
    )
    things = [*(("gas line", line) for line in lines), *(("sleeve", sleeve) for sleeve in sleeves)]
    return with_rows(left, read_about(things, read_to))


def _when(each: tuple[_When, Told]) -> _When:
    return each[0]
