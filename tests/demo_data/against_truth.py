"""Holds what was found against the table of what is planted, item by item, and tells it as a table."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from fnmatch import fnmatchcase
from typing import NamedTuple
from zoneinfo import ZoneInfo

FLAGGED = frozenset({"outside", "unknown"})
_MOMENT = re.compile(r"@(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d)Z$")
_LITERAL = str.maketrans({"[": "[[]", "?": "[?]"})
Row = Mapping[str, str]


class Found(NamedTuple):
    """One finding: about what, which question, its word and how much it holds up."""

    subject: str
    question: str
    word: str
    severity: str


class Missed(NamedTuple):
    """A planted row that was not found as told, and what was said instead, if anything was."""

    row: Row
    instead: str


@dataclass
class Tally:
    """One incident's share of the comparison."""

    asked: int = 0
    missing: list[Missed] = field(default_factory=list)
    decoys: int = 0
    flagged: list[Found] = field(default_factory=list)


@dataclass
class Against:
    """The whole comparison, by incident; `beside` was found and not planted, `unasked` is answered by nothing here."""

    by_incident: dict[str, Tally]
    unasked: list[str]
    beside: list[Found]

    @property
    def asked(self) -> int:
        """How many rows were asked for."""
        return sum(each.asked for each in self.by_incident.values())

    @property
    def missing(self) -> list[Missed]:
        """Every row that was not found."""
        return [missed for each in self.by_incident.values() for missed in each.missing]

    @property
    def flagged(self) -> list[Found]:
        """Every finding on a decoy."""
        return [found for each in self.by_incident.values() for found in each.flagged]

    @property
    def good(self) -> bool:
        """Everything found, nothing flagged, no question that nobody answers."""
        return not (self.missing or self.flagged or self.unasked)

    def table(self, title: str) -> str:
        """Tell it in a line per incident, then everything that is wrong."""
        lines = [title, f"{'incident':<10}{'asked':>7}{'found':>7}{'missing':>9}{'decoys':>8}{'flagged':>9}"]
        lines += [_line(name, each) for name, each in sorted(self.by_incident.items())]
        whole = Tally(self.asked, self.missing, sum(e.decoys for e in self.by_incident.values()), self.flagged)
        lines.append(_line("all", whole))
        lines += [f"nothing answers {question!r}" for question in self.unasked]
        lines += [f"missing {dict(row)}; instead: {instead or 'nothing'}" for row, instead in self.missing]
        lines += [f"decoy flagged: {found}" for found in self.flagged]
        lines += [f"found beside: {found}" for found in self.beside]
        return "\n".join(lines)


def against(
    found: Iterable[Found], truth: Iterable[Row], decoys: Iterable[Row], questions: Iterable[str], zone: str
) -> Against:
    """Compare; moments of findings are told in the shop's own minutes, as the table tells them."""
    told = [each._replace(subject=in_shop_time(each.subject, zone)) for each in found]
    flagged = [each for each in told if each.word in FLAGGED]
    rows = list(truth)
    tallies: dict[str, Tally] = {}
    _hold_rows(tallies, rows, {(each.subject, each.question): each for each in told})
    _hold_decoys(tallies, decoys, flagged)
    planted = {(row["subject"], row["question"]) for row in rows}
    unasked = sorted({row["question"] for row in rows} - set(questions))
    return Against(tallies, unasked, [each for each in flagged if each[:2] not in planted])


def in_shop_time(subject: str, zone: str) -> str:
    """Tell a thing at a moment as the table does: in the shop's own time, to the minute.

    >>> in_shop_time("B1-P@2025-03-19T15:05:01Z", "Europe/Copenhagen")
    'B1-P@2025-03-19T16:05'
    """
    if not (moment := _MOMENT.search(subject)):
        return subject
    local = datetime.fromisoformat(moment[1]).replace(tzinfo=UTC).astimezone(ZoneInfo(zone))
    return f"{subject[: moment.start()]}@{local:%Y-%m-%dT%H:%M}"


def _hold_rows(tallies: dict[str, Tally], rows: Iterable[Row], told: Mapping[tuple[str, str], Found]) -> None:
    for row in rows:
        tally = tallies.setdefault(row["incident"], Tally())
        tally.asked += 1
        said = told.get((row["subject"], row["question"]))
        if said is None or (said.word, said.severity) != (row["verdict"], row["severity"]):
            tally.missing.append(Missed(row, " ".join(said[2:]) if said else ""))


def _hold_decoys(tallies: dict[str, Tally], decoys: Iterable[Row], flagged: list[Found]) -> None:
    exact: dict[str, list[Found]] = {}
    for each in flagged:
        for about in {each.subject, each.subject.partition(":q")[0]}:
            exact.setdefault(about, []).append(each)
    for row in decoys:
        tally = tallies.setdefault(row["incident"], Tally())
        tally.decoys += 1
        about = row["subject"]
        near = exact.get(about, []) if "*" not in about else [each for each in flagged if _matches(each, about)]
        tally.flagged += [each for each in near if row["question"] in ("*", each.question)]


def _matches(found: Found, pattern: str) -> bool:
    return fnmatchcase(found.subject, pattern.translate(_LITERAL))


def _line(name: str, each: Tally) -> str:
    found = each.asked - len(each.missing)
    return f"{name:<10}{each.asked:>7}{found:>7}{len(each.missing):>9}{each.decoys:>8}{len(each.flagged):>9}"
