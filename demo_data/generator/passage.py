"""Writes a frame's way through the house: stages, geometry checks, and hold points released."""

from demo_data.generator.days import LAST, MINUTE, at, working_days_later
from demo_data.generator.frames import FINISHING, INSPECTED, RELEASED, SHIPPED, Frame
from demo_data.generator.joints import COVERED
from demo_data.generator.numbers import value
from demo_data.generator.shop import QUALITY_TABLET, Shop
from demo_data.generator.story import Story
from demo_data.generator.weld import SECOND, Weld

_STAGES = (
    (0, "07:06", "cut", "M01"), (0, "07:14", "sub-assembly", "M01"), (5, "10:20", "reamed", "M01"),
    (6, "11:10", "aligned", "M01"), (INSPECTED, "14:10", "inspected", "Q01"), (FINISHING, "08:20", "finishing", "F01"),
    (RELEASED, "11:30", "released", "Q01"), (SHIPPED, "13:40", "shipped", "F01"),
)  # fmt: skip
BIKES = ("LST", "WHB")


def tell_passage(shop: Shop, story: Story, frame: Frame) -> None:
    """Write the stages a frame reached while the history lasts."""
    for stage, clock, name, who in _STAGES:
        if frame.days[stage] <= LAST and ("stage", (frame.number, name)) not in shop.plan.skipped:
            moment = at(frame.days[stage], clock) + shop.dice("stage", frame.serial, name).whole(0, 500) * SECOND
            story.tell(moment, QUALITY_TABLET, who, "stage", frame=frame.serial, stage=name)


def tell_geometry(shop: Shop, story: Story, frame: Frame, welds: list[Weld]) -> None:
    """Write the geometry checks: tacked triangle, finished triangle, chainstays, and the whole frame."""
    if frame.design in BIKES:
        stages = {stage: [w for w in welds if w.stage == stage and w.attempt == 1] for stage in range(5)}
        if stages[1]:
            _check(shop, story, frame, "G1", max(weld.tack for weld in stages[1]) + 15 * MINUTE)
        for stage, check in ((2, "G2"), (3, "G3")):
            if stages[stage]:
                _check(shop, story, frame, check, min(weld.tack for weld in stages[stage]) - 11 * MINUTE)
    if frame.days[6] <= LAST:
        _check(shop, story, frame, "G4", at(frame.days[6], "10:50"))


def _check(shop: Shop, story: Story, frame: Frame, check: str, moment: int) -> None:
    if ("geometry", (frame.number, check)) in shop.plan.skipped:
        return
    dice = shop.dice("geometry", frame.serial, check)
    moment = shop.plan.facts.get(("geometry", frame.number, check), moment)
    off = shop.plan.facts.get(("deviation", frame.number, check), f"{dice.lognormal(0.25, 0.4, 0.1, 0.55):.2f}")
    values = value("deviation", off, "read", "AT-1")
    story.tell(moment, QUALITY_TABLET, "M01", "geometry", frame=frame.serial, check=check, result="good", values=values)


def tell_releases(shop: Shop, story: Story, frame: Frame, welds: list[Weld]) -> None:
    """Write when each seam that another tube hides was released, after it was looked at and before it is hidden."""
    for joint in COVERED[frame.design]:
        # A seam finished on another day than begun is released once, after its last run.
        last = {weld.attempt: weld for weld in sorted(welds, key=lambda weld: weld.last) if weld.joint == joint}
        for weld in last.values():
            if ("release", (frame.number, joint, weld.attempt)) in shop.plan.skipped:
                continue
            dice = shop.dice("release", weld.subject)
            moment = weld.last + dice.whole(17, 40) * MINUTE
            if moment > at(weld.day, "16:44"):
                moment = at(working_days_later(weld.day, 1), "07:34") + dice.whole(0, 400) * SECOND
            moment = shop.plan.facts.get(("release", frame.number, joint, weld.attempt), moment)
            attempt = {"attempt": weld.attempt} if weld.attempt > 1 else {}
            named = {"frame": frame.serial, "joint": joint, "role": "quality lead", **attempt}
            story.tell(moment, QUALITY_TABLET, "Q01", "release", **named)
