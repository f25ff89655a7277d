"""Writes what a shop meets beside the incidents: small nonconformities, scrapped pieces, claims a picture settles."""

from datetime import date

from demo_data.generator.customers import customer_of
from demo_data.generator.days import LAST, MINUTE, at, working_days_later
from demo_data.generator.devices import iso
from demo_data.generator.frames import SHIPPED, Frame
from demo_data.generator.shop import QUALITY_TABLET, Shop
from demo_data.generator.signing import signatures
from demo_data.generator.story import Story
from demo_data.generator.weld import Weld

# What, the stage it is seen at, who sees it, the cause, what was done.
_SMALL = (
    ("a dent in a tube, 0.2 mm deep and away from every seam", 2, "M01", "the frame slipped in the clamp",
     "clamp jaws lined with new leather; wall measured over the dent, and sound"),
    ("a ream mark inside the collar", 5, "M01", "a chip under the reamer",
     "reamed again by hand; the reamer is blown clean before each pass"),
    ("bosses of the wrong size in the kit", 4, "M01", "two boxes of bosses stood in one bin",
     "kit changed before anything was tacked; a bin for each size"),
    ("a mitre cut too short", 0, "M01", "the stop of the saw had worked loose",
     "tube cut anew from the same heat; the stop is checked every morning"),
)  # fmt: skip
_SHARE = 0.11
# Which claim, the design, what was said, what the picture showed, what was decided.
_CLAIMS = (
    ("W-25-001", "LST", "The fork no longer runs straight after a ride.",
     "Both head-tube ends bent back: a fall.", "closed"),
    ("W-25-002", "PLV", "A crack beside a hole under the seat.",
     "The crack runs from a hole drilled after delivery; no seam of ours is near it.", "refused"),
    ("W-26-001", "LST", "A click at the front when braking.",
     "The headset's lower race sits askew; set right, it is quiet.", "closed"),
    ("W-26-002", "WHB", "The paint lifts at the top tube.",
     "Lacquer only, bare metal sound below; painted again.", "repair"),
    ("W-26-003", "LST", "The rear stays are out of line.",
     "A dent and scratches on both stays: run over, standing.", "closed"),
)  # fmt: skip
_FIRST_DAYS = ("2025-06-17", "2025-11-19", "2026-01-21", "2026-03-11", "2026-05-13")


def tell_small(shop: Shop, story: Story, frame: Frame) -> None:
    """Write a small nonconformity at some frames: seen, put under a number, mended, closed before the inspection."""
    dice = shop.dice("small trouble", frame.serial)
    if frame.number in shop.plan.frames or not dice.chance(_SHARE):
        return
    what, stage, who, cause, action = _SMALL[dice.whole(0, len(_SMALL) - 1)]
    day, closed = frame.days[stage], at(working_days_later(frame.days[stage], 1), "10:05")
    if closed > at(LAST, "12:00"):
        return
    seen = at(day, "09:35") + dice.whole(0, 200) * MINUTE
    story.tell(seen, QUALITY_TABLET, who, "problem", frame=frame.serial, words=what)
    story.sign(
        closed, "nonconformity", f"NCR-{day:%y}-{400 + frame.number}", title=f"{frame.serial}: {what}",
        containment="the frame waits at its bench", cause=cause, action=action, recurred="no", closed=iso(closed),
        signatures=signatures(closed, f"{frame.serial}: {what}; mended.", "Q01"),
    )  # fmt: skip


def tell_scrapped(story: Story, weld: Weld, moment: int) -> None:
    """Write the nonconformity under which a frame's small pieces were thrown away with their seams."""
    named = f"NCR-{weld.day:%y}-{700 + weld.frame.number}"
    if known := next((paper for paper in story.papers if paper.line["id"] == named), None):
        known.line["held"].append(weld.subject)
        return
    words = f"{weld.frame.serial}: what is scrapped is cut off, a new piece is welded on."
    story.sign(
        moment, "nonconformity", named, title=f"{weld.frame.serial}: small piece scrapped",
        held=[weld.subject], containment="cut off and marked", cause="out of its limits, and too small to mend",
        action="a new piece under the production procedure", recurred="no", closed=iso(moment),
        signatures=signatures(moment, words, "Q01", "O01"),
    )  # fmt: skip


def tell_claims(shop: Shop, story: Story) -> None:
    """Write the claims that a picture settled; none of them says anything of a seam."""
    taken: set[int] = set()
    for (claim, design, said, seen, settled), first in zip(_CLAIMS, _FIRST_DAYS, strict=True):
        frame = _shipped_before(shop, design, first, taken)
        taken.add(frame.number)
        _claim(shop, story, frame, claim, first, said, seen, settled)


def _shipped_before(shop: Shop, design: str, first: str, taken: set[int]) -> Frame:
    """Some frame that had been with its customer for a month, and that no incident is about."""
    named = {*shop.plan.frames, *shop.plan.facts["customers"], *taken}
    gone = [
        frame for number, frame in sorted(shop.frames.items())
        if frame.design == design and number not in named and not frame.before_the_record
        and working_days_later(frame.days[SHIPPED], 20).isoformat() < first
    ]  # fmt: skip
    return gone[shop.dice("settled by a picture", design, first).whole(0, len(gone) - 1)]


def _claim(shop: Shop, story: Story, frame: Frame, claim: str, first: str, said: str, seen: str, settled: str) -> None:
    owner = customer_of(shop.plan, frame)
    day = date.fromisoformat(first)
    came, looked = at(day, "09:20"), at(working_days_later(day, 2), "10:40")
    decided = at(working_days_later(day, 4), "15:10")
    story.sign(
        came, "claim", claim, serial=frame.serial, reported_by=owner, reported=iso(came), knew=iso(came), symptom=said,
        written_by="A01",
    )  # fmt: skip
    story.sign(
        looked, "claim step", f"{claim}/1", claim=claim, at=iso(looked), step="photo", to=owner, words=seen,
        written_by="A01",
    )  # fmt: skip
    story.sign(
        decided, "claim step", f"{claim}/2", claim=claim, at=iso(decided), step="decision", settled=settled,
        words=seen, written_by="O01", signatures=signatures(decided, seen, "Q01", "O01"),
    )  # fmt: skip
    story.never("chance", [f"{frame.serial}/*"], "shares-cause", f"{claim} was settled by a picture")
