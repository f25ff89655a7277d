"""I-09: the warranty claim on a frame welded on the bad cylinder, more than a year later."""

from collections.abc import Callable

from demo_data.generator.devices import IMPORT
from demo_data.generator.incidents import i01_told, i09_file
from demo_data.generator.incidents.i01_bad_cylinder import BEFORE, LOT
from demo_data.generator.incidents.pinning import span, subjects
from demo_data.generator.numbers import value
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.story import Story

I = "I-09"  # noqa: E741
CLAIMED, SISTER = 41, 39


def plant(plan: Plan, place: Place) -> None:
    """Nothing of the welding is settled here: the cause lies in I-01."""
    plan.told.append((I, _teller(place)))


def _teller(place: Place) -> Callable[[Shop, Story], None]:
    # The claim's own days do not move with the cylinder: it came when it came.
    now = Place()
    return lambda shop, story: _tell(shop, story, place, now)


def _tell(shop: Shop, story: Story, place: Place, now: Place) -> None:
    frame = place.serial(CLAIMED)
    words = (
        f"{i09_file.CLAIM}: creak at the seat cluster after 11,400 km loaded; photograph of a 14 mm crack along the "
        "weld toe, left side. No crash; seatpost in 95 mm."
    )
    story.tell(now.at("2026-06-08", "09:12"), IMPORT, "A01", "problem", frame=frame, joint="J06", words=words)
    story.tell(now.at("2026-06-15", "11:05"), "TAB-Q", "F01", "stage", frame=frame, stage="returned")
    for joint, hardness, rest in (
        ("J06", 312, "hydrogen 168 ppm, oxygen 0.21 %; fatigue from the toe"),
        ("J04", 236, "hydrogen 61 ppm, oxygen 0.12 %; the joint that J06 is held against"),
    ):
        story.tell(
            now.at("2026-06-22", "10:20"), IMPORT, "A01", "reading", frame=frame, joint=joint,
            values=value("hardness", hardness, "typed"),
            note=f"{i09_file.LABORATORY}, root side HV0.5; {rest}",
        )  # fmt: skip
    i01_told.narrow_by_cylinder(shop, story, now.at("2026-06-22", "15:40"))
    i09_file.tell_claim_file(story, now, frame, place.serial(SISTER))
    for subject in [*subjects(place, CLAIMED, "J03", "J05"), *subjects(place, SISTER, *span("F", 9, 14))]:
        story.find(I, subject, "shares-cause", "stop")
    good = [LOT, BEFORE, *subjects(place, CLAIMED, "J04", "J01", "J02")]
    story.never(I, good, "held-by-failed-check", "previous cylinder, or lot cleared by its own beads")
    story.sign(
        now.at("2025-11-24", "09:30"), "ownership", f"{place.serial(SISTER)} {now.day('2025-11-24')}",
        frame=place.serial(SISTER), customer="C-02", since="2025-11-22", told_by="C-03",
    )  # fmt: skip
