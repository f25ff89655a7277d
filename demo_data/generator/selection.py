"""Which part of the history is told: all of it, or some frames and the days they touch."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from demo_data.generator.days import DAY, LAST, WORKING_DAYS, at
from demo_data.generator.frames import OLD
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.story import Paper, Story
from demo_data.generator.weld import Weld


@dataclass(frozen=True)
class Part:
    """Frames an incident touches and more days to tell with them, as the first telling has them; both move with it."""

    incident: str
    numbers: tuple[int, ...]
    first: str = ""
    last: str = ""

    def moved(self, weeks: int) -> "Part":
        """Give the part where the incident lies so many production weeks later."""
        place = Place(weeks)
        moved = replace(self, numbers=tuple(map(place.number, self.numbers)))
        if not (weeks and self.first):
            return moved
        return replace(moved, first=str(place.day(self.first)), last=str(place.day(self.last)))


SMALL = (
    Part("I-01", (35, 37, 38, 39, 40, 41, 43, 45), "2025-03-10", "2025-04-02"),
    Part("I-05a", (85, 87, 89), "2025-06-09", "2025-06-13"),
    Part("I-03", (117,), "2025-08-18", "2025-09-12"),
    Part("I-04", (114, 116, 118, 120, 122, 124, 126, 128, 130, 132, 134), "2025-07-01", "2025-10-20"),
    Part("MB-0871", (OLD,), "2026-06-08", "2026-06-22"),
)
SLICE = (
    Part("I-01", (35, 37, 39, 41, 43, 45), "2025-03-10", "2025-03-26"),
    Part("I-05a", (85, 87, 89), "2025-06-09", "2025-06-20"),
    Part("I-08", (231, 233, 235), "2026-03-20", "2026-03-30"),
)
FRIDAY = 4
_RUN_UP = timedelta(days=7)
"""Gas and beads are told from a week before a frame's first weld, so that what it rests on is there."""


@dataclass(frozen=True)
class Selection:
    """Some frames with their days, and the incidents told; empty means all."""

    name: str = "full"
    parts: tuple[Part, ...] = ()
    tellers: tuple[str, ...] = field(default=())

    def moved(self, moves: Mapping[str, int]) -> "Selection":
        """Give the selection of a telling whose incidents lie in other weeks."""
        return replace(self, parts=tuple(each.moved(moves.get(each.incident, 0)) for each in self.parts))

    def frames(self, shop: Shop) -> set[int]:
        """Give the numbers of the frames told."""
        return {number for part in self.parts for number in part.numbers} or set(shop.frames)

    def days(self, welds: dict[tuple[str, date], list[Weld]], told: set[int]) -> set[date]:
        """Give the days on which what is shared is told: those asked for, and those the frames were welded on."""
        if not self.parts:
            return set(WORKING_DAYS)
        spans = [(date.fromisoformat(part.first), date.fromisoformat(part.last)) for part in self.parts if part.first]
        welded = {day for (_, day), own in welds.items() if any(weld.frame.number in told for weld in own)}
        spans += [(day - _RUN_UP, day) for day in welded]
        spans = [(first, last + max(0, FRIDAY - last.weekday()) * DAY) for first, last in spans]
        return {day for day in WORKING_DAYS if any(first <= day <= last for first, last in spans)}

    def incidents(self, plan: Plan) -> Iterable[Callable[[Shop, Story], None]]:
        """Give the incidents told."""
        return [tell for name, tell in plan.told if not self.tellers or name in self.tellers]


_FRAME, _DAY = re.compile(r"M[TB]-\d{4}"), re.compile(r"@(\d{4}-\d\d-\d\d)")


def keep_what_is_told(story: Story, serials: set[str], days: set[date], changes: set[str]) -> None:
    """Drop what is about frames that are not told, what lies on other days, and what lies behind the end."""
    end = at(LAST, "20:00")
    story.happenings = [
        happening
        for happening in story.happenings
        if happening.at <= end and happening.fields.get("frame", "MT") in {"MT", *serials}
    ]
    story.papers = [paper for paper in story.papers if paper.at <= end and _frame_of(paper) in {"MT", *serials}]
    claims = {paper.line["id"] for paper in story.papers if paper.line["kind"] == "claim"}
    story.papers = [paper for paper in story.papers if paper.line.get("claim", "") in {"", *claims}]
    for rows in (story.truth, story.decoys):
        rows[:] = [r for r in rows if r["subject"][:15] in changes or _told(r["subject"], serials, days)]


def _frame_of(paper: Paper) -> str:
    """The frame a paper is about; of a claim's step the claim decides."""
    line = paper.line
    named: str = line.get("frame") or (line["serial"] if line["kind"] == "claim" else "MT")
    return named


def _told(subject: str, serials: set[str], days: set[date]) -> bool:
    frame, day = _FRAME.match(subject), _DAY.search(subject)
    return (not frame or frame[0] in serials) and (not day or date.fromisoformat(day[1]) in days)


SELECTIONS = {
    "full": Selection(),
    "small": Selection("small", SMALL, ("I-01", "I-03", "I-04", "I-05a", "I-09", "MB-0871")),
    "slice": Selection("slice", SLICE, ("I-01", "I-05a", "I-08")),
}
