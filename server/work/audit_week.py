"""The welded joints of one week of the shop, and those of them that nobody has found anything on."""

import re
from datetime import date
from hashlib import sha256
from typing import NamedTuple

from server.facts.subject import JointSubject
from server.occasions.days import Days
from server.record.reads import Reads
from server.work.fault_series import EVERY, JointMark, fault_series
from server.work.refusal import NotThere

_WEEK = re.compile(r"(\d{4})-W(\d\d)")


class Week(NamedTuple):
    """A week of the shop, Monday to Sunday, and the moments it begins and is over [ms, UTC]."""

    name: str
    since_ms: int
    until_ms: int


class Unflagged(NamedTuple):
    """How many joints were welded, and those without any finding, in a fixed order."""

    welded: int
    subjects: tuple[str, ...]

    @property
    def sha256(self) -> str:
        """A digest that names this list and no other."""
        return sha256("\n".join(self.subjects).encode()).hexdigest()


def week_named(name: str, days: Days) -> Week:
    """Read a week, written as 2025-W12; raises `NotThere` for what is none."""
    found = _WEEK.fullmatch(name)
    try:
        monday = date.fromisocalendar(int(found[1]), int(found[2]), 1).toordinal() if found else 0
    except ValueError:
        monday = 0
    if not monday:
        raise NotThere(f"week: {name!r} is no week; write it as 2025-W12")
    return Week(name, days.start_ms(monday), days.start_ms(monday + 7))


def week_of(moment_ms: int, days: Days) -> str:
    """Name the week a moment falls in."""
    year, week, _ = date.fromordinal(days.day_of(moment_ms)).isocalendar()
    return f"{year}-W{week:02d}"


def unflagged(reads: Reads, week: Week, known_at: int) -> Unflagged:
    """Give the joints whose last arc of an attempt fell into the week, as known and judged at one record position."""
    marks = fault_series(reads, reads.findings(known_at=known_at), EVERY, known_at)
    welded = [each for each in marks if week.since_ms <= each.at_ms < week.until_ms]
    return Unflagged(len(welded), tuple(sorted(_subject(each) for each in welded if not each.faulty)))


def _subject(mark: JointMark) -> str:
    return str(JointSubject(mark.frame, mark.joint, mark.attempt))
