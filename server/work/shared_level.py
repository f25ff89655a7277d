"""What frames share, judged again by what changed since; where that may be anything, all of it, some at a time."""

from collections.abc import Collection, Iterator, Mapping

from server.facts.frame_papers import decisions_on
from server.facts.judged import Verdict
from server.facts.occasion import Occasion
from server.facts.subject import read_joint_subject
from server.judgement.book import Book
from server.judgement.judge import judge_by_subject
from server.occasions.build import Shop
from server.occasions.papers import concession_occasions
from server.occasions.shared_changes import changed_things, every_thing
from server.occasions.welders import overlap_occasions

_THINGS_AT_ONCE = 200
Answers = Mapping[str, Mapping[str, Verdict]]
"""What is said of each subject, by question; nothing of one that is asked nothing any more."""


class SharedLevel:
    """The shop as it was when what frames share was last judged, and up to which line that was noted."""

    def __init__(self) -> None:
        self._noted = -1
        self._shop: Shop | None = None

    def before(self, judged_to: int) -> Shop | None:
        """Give the shop as it was judged, if that is what the record notes."""
        return self._shop if self._noted == judged_to else None

    def keep(self, judged_to: int, shop: Shop | None) -> None:
        """Keep the shop that was judged; none where nothing shared was touched, so that the one before still is it."""
        self._noted, self._shop = judged_to, shop or self._shop


def said_again(before: Shop, now: Shop, book: Book, *, certain: bool) -> Iterator[Answers]:
    """Give what is said now of whatever may be said otherwise than before, some things at a time.

    Where it is `certain` that what was said of the shop before is what the record holds, what is said the same is left.
    """
    things = changed_things(before.tables, now.tables)
    every = sorted(every_thing(before.tables) | every_thing(now.tables) if things is None else things)
    for first in range(0, len(every), _THINGS_AT_ONCE):
        some = every[first : first + _THINGS_AT_ONCE]
        then, after = (judge_by_subject(shop.shared(some), book) for shop in (before, now))
        said = dict.fromkeys([*then, *after])
        found: dict[str, Mapping[str, Verdict]] = {
            each: after.get(each, {}) for each in said if not certain or then.get(each) != after.get(each)
        }
        yield {**found, **_of_joints(now, [each for each in found if read_joint_subject(each)], book)}


def _of_joints(shop: Shop, joints: Collection[str], book: Book) -> Answers:
    """A joint is spoken of by every welder at it and by every concession used on it, changed or not."""
    tables, welders, concessions = shop.tables, set[str](), set[str]()
    for subject in joints:
        frame = subject.partition("/")[0]
        welders |= {use.welder for use in tables.uses.by_frame.get(frame, ()) if use.subject == subject}
        concessions |= {each.concession for each in decisions_on(tables.registers, frame, ()) if each.concession}
    asked: list[Occasion] = [*overlap_occasions(tables, welders, joints), *concession_occasions(tables, concessions)]
    said = judge_by_subject(asked, book)
    return {subject: said.get(subject, {}) for subject in joints}
