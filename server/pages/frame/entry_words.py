"""Puts an entry of the log into shop words: what was done, where, and the values with how each is known."""

from collections.abc import Callable
from typing import Any

from server.facts.entry import QUARTERS
from server.facts.log import AnyEntry
from server.facts.measured import Measured
from server.facts.quantities import QUANTITIES
from server.pages.frame.wording import in_unit

_HOUR = {"q12": "12", "q3": "3", "q6": "6", "q9": "9"}


def quarters_words(quarters: tuple[str, ...]) -> str:
    """Say which quarters were run: `all round`, or `3 and 6 o'clock`.

    >>> quarters_words(("q3", "q6"))
    "3 and 6 o'clock"
    """
    if set(quarters) == set(QUARTERS):
        return "all round"
    return " and ".join(_HOUR[each] for each in quarters) + " o'clock"


def entry_words(entry: AnyEntry) -> str:
    """Say in one line what an entry tells."""
    return _WORDS[entry.kind](entry)


def entry_values(entry: AnyEntry) -> list[str]:
    """Say each value of an entry with its unit, how it is known and by what; many entries carry none."""
    values: dict[str, Measured] = getattr(entry, "values", {})
    return [
        f"{QUANTITIES[name].words} {in_unit(f'{each.value:g}', each.unit)}"
        f" ({each.how}{f', {each.by}' if each.by else ''})"
        for name, each in values.items()
    ]


def _pass(entry: Any) -> str:
    rod = "" if entry.sleeve is None else ", no filler" if entry.sleeve == "none" else f", rod from {entry.sleeve}"
    return f"{entry.run} {quarters_words(entry.quarters)}{rod}"


def _look(entry: Any) -> str:
    part = "" if set(entry.quarters) == set(QUARTERS) else f", {quarters_words(entry.quarters)}"
    where = f"{entry.side}, {entry.zone}{part}"
    seen = f"grade {entry.grade}" if entry.answer == "graded" else entry.answer
    return f"look {where}: {seen}" + (f" ({entry.reason})" if entry.reason else "")


def _tack(entry: Any) -> str:
    return "tacks cut out again" if entry.removed else f"tacked {quarters_words(entry.quarters)}"


def _cylinder(entry: Any) -> str:
    parts = [f"{entry.off} off" if entry.off else "", f"{entry.on} on" if entry.on else ""]
    return f"{entry.line}: " + ", ".join(part for part in parts if part)


def _photo(entry: Any) -> str:
    where = ", ".join(each for each in (entry.side, entry.zone, entry.moment) if each)
    return f"picture {where}".strip()


def _where(entry: Any) -> str:
    """Say of which joint, gas line or purge set-up something was told apart from a pass."""
    parts = [f"at {entry.joint}" if entry.joint else ""]
    parts += [f"on {each}" for each in (getattr(entry, "line", None), getattr(entry, "setup", None)) if each]
    return "".join(f" {part}" for part in parts if part)


def _correction(entry: Any) -> str:
    return f"correction of {entry.of}: " + ("withdrawn" if entry.withdraw else "put right") + f", {entry.reason}"


_WORDS: dict[str, Callable[[Any], str]] = {
    "purge": lambda e: f"purge {e.act}, set-up {e.setup}, {e.line}",
    "tack": _tack,
    "pass": _pass,
    "look": _look,
    "gap": lambda _: "fit-up gap measured",
    "clean": lambda e: f"cleaned: {e.method}",
    "removed": lambda e: f"weld metal removed {quarters_words(e.quarters)}: {e.method}",
    "bead": lambda e: f"test bead on {e.line}: {e.result}" + (f", grade {e.grade}" if e.grade is not None else ""),
    "coupon": lambda e: f"coupon of {e.welder}: {e.result}",
    "check": lambda e: f"{e.check} check of {e.subject}: {e.result}",
    "geometry": lambda e: f"geometry check {e.check}: {e.result}" + (", cold set" if e.cold_set else ""),
    "reading": lambda e: f"reading{_where(e)}",
    "cylinder": _cylinder,
    "sleeve": lambda e: f"sleeve {e.sleeve} {e.act}" + (f", rod ends read as {e.rod_ends}" if e.rod_ends else ""),
    "problem": lambda e: f"problem{_where(e)} ({e.what}): {e.words}",
    "photo": _photo,
    "arrived": lambda e: f"picture {e.sha256[:12]} arrived{f' from {e.sent_by}' if e.sent_by else ''}",
    "trace": lambda e: f"machine trace of {e.of}",
    "release": lambda e: "hold point released" + (" on a slip, before the passes were in" if e.provisional else ""),
    "stage": lambda e: e.stage,
    "opened": lambda e: f"frame {e.act} on {e.device}",
    "correction": _correction,
}
