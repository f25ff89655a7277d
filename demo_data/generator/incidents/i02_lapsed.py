"""I-02: a welder called in whose qualification had lapsed six days before, with a good coupon and a valid other one."""

from demo_data.generator.frames import INSPECTED, RELEASED, SHIPPED
from demo_data.generator.incidents.pinning import span, subjects
from demo_data.generator.joints import STAGES
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-02"  # noqa: E741
BIKE, CHAIR = 164, 166
LAPSED = {BIKE: ("J13", "J14", "J15", "J16"), CHAIR: ("K01", "K02", "K11", "K12", "K03", "K04")}
CALLED = (20, 22, 60, 62, 108, 110, 192, 194)
_LATER = {
    BIKE: {INSPECTED: "2025-11-20", 8: "2025-11-21", 9: "2025-11-24", RELEASED: "2025-11-26", SHIPPED: "2025-11-28"},
    CHAIR: {INSPECTED: "2025-11-24", 8: "2025-11-25", 9: "2025-11-26", RELEASED: "2025-12-01", SHIPPED: "2025-12-03"},
}


def plant(plan: Plan, place: Place) -> None:
    """Keep chance away from the days of the call, and let the two frames wait."""
    plan.frames |= {place.number(number) for number in (*LAPSED, *CALLED)}
    plan.quiet("B2", *(place.day(day) for day in ("2025-11-11", "2025-11-12", "2025-11-13")))
    for number, stages in _LATER.items():
        for stage, day in stages.items():
            plan.days[place.number(number), stage] = place.day(day)
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    for joint, clock in (("K03", "10:20"), ("K04", "10:31")):
        story.tell(
            place.at("2025-11-19", clock), "TAB-Q", "Q01", "look", frame=place.serial(CHAIR), joint=joint,
            role="quality lead", side="inside", zone="bead", grade=0, note="seen through the front cross tube",
        )  # fmt: skip
    reason = "New test piece good; looked at and tried with penetrant, two looked at inside: no defect."
    for number, joints in LAPSED.items():
        signed = place.at("2025-11-19", f"16:{number % 60:02d}")
        found = [key(subject, "welder-qualified") for subject in subjects(place, number, *joints)]
        story.sign(
            signed, "decision", f"D-{place.serial(number)}-welder", choice="use as is", frame=place.serial(number),
            findings=found, reason=reason, signatures=signatures(signed, reason, "Q01", "O01"),
        )  # fmt: skip
        for subject in subjects(place, number, *joints):
            story.find(I, subject, "welder-qualified", "stop")
    _decoys(story, place)


def _decoys(story: Story, place: Place) -> None:
    fittings = subjects(place, BIKE, *span("F", 11, 14))
    story.never(I, fittings, "welder-qualified", "his qualification for fittings was valid")
    for number, design in ((BIKE, "WHB"), (CHAIR, "PLV")):
        others = [joint for stage in STAGES[design] for joint in stage if joint not in LAPSED[number]]
        story.never(I, subjects(place, number, *others), "welder-qualified", "welded by the others, or validly")
    frames = [f"{place.serial(number)}/*" for number in CALLED]
    story.never(I, frames, "welder-qualified", "inside the old qualification or the new one")
