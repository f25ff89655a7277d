"""The address of the calendar of checks: one month, every check plan by line, instrument and welder, day by day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from urllib.parse import quote

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.facts.subject import day_subject
from server.judgement.book import RULES
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.work.check_calendar import PLANS, Calendar, Mark, Row, check_calendar
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)
_WORDS = {
    "good": ("●", "made, good"),
    "failed": ("✕", "made, failed"),
    "waiting": ("◐", "made, its result is waited for"),
    "missing": ("◇", "in use, due and not made"),
    "used": ("·", "in use, held by a check of another day"),
}


@dataclass(frozen=True, slots=True)
class ChecksPage:
    """One month of checks, with the months before and after it."""

    calendar: Calendar

    @property
    def title(self) -> str:
        """Name the month."""
        return self.calendar.first.strftime("%B %Y")

    @property
    def days(self) -> tuple[tuple[int, str, bool], ...]:
        """Give each day with the first letter of its weekday, and whether it is a Saturday or a Sunday."""
        first = self.calendar.first.toordinal()
        every = [date.fromordinal(first + each) for each in range(self.calendar.length)]
        return tuple((each.day, each.strftime("%a")[0], each.weekday() > 4) for each in every)

    @property
    def before(self) -> str | None:
        """The month before this one that holds anything."""
        return next((each for each in reversed(self.calendar.months) if each < self.own), None)

    @property
    def after(self) -> str | None:
        """The month after this one that holds anything."""
        return next((each for each in self.calendar.months if each > self.own), None)

    def month(self, address: str) -> str:
        """Name a month from how an address has it."""
        return date.fromisoformat(f"{address}-01").strftime("%B %Y")

    @property
    def signs(self) -> dict[str, tuple[str, str]]:
        """Give the sign and the words of every kind of mark."""
        return _WORDS

    @property
    def own(self) -> str:
        """This month as an address has it."""
        return self.calendar.first.strftime("%Y-%m")

    def plan(self, row: Row) -> str:
        """Name a check plan."""
        return PLANS[row.plan]

    def missing(self, row: Row, days: Sequence[tuple[int, str, bool]]) -> int:
        """Count what was due and not made on these days."""
        shown = {day for day, _, _ in days}
        return sum(each.state == "missing" for day, each in row.marks.items() if day in shown)

    def link(self, row: Row, day: int, mark: Mark) -> str:
        """Give where a mark leads: to its entry, or to the finding that a missing check is; nowhere for mere use."""
        if mark.entry:
            return f"/entries/{quote(mark.entry, '')}"
        rule = next((each.id for each in RULES if each.limit == row.plan and each.level == "due"), None)
        if mark.state != "missing" or rule is None:
            return ""
        key = f"{day_subject(row.thing, self.calendar.first.toordinal() + day - 1)}|{rule}"
        return f"/desk/decide?key={quote(key, '')}"


@router.get("/charts/checks", dependencies=[Depends(needs("quality lead", "owner"))])
def checks(request: Request, month: str = "") -> Response:
    """Show one month; without one, the newest in which anything was logged."""
    with request.app.state.record.reads() as reads:
        calendar = check_calendar(reads, typed_month(month))
    return show(request, "charts/checks.html", ChecksPage(calendar))


def typed_month(text: str) -> date | None:
    """Read a month as an address has it; none where it is empty."""
    try:
        return date.fromisoformat(f"{text}-01") if text else None
    except ValueError:
        raise NotThere(f"month: {text!r} is no month; write it as 2025-03") from None
