"""I-10: a coupon cracks with good gas; the result is entered hours later, and a tube is tacked meanwhile."""

from demo_data.generator.days import show
from demo_data.generator.frames import INSPECTED, RELEASED, SHIPPED
from demo_data.generator.incidents.pinning import pin_runs, pin_tacks, span, subjects
from demo_data.generator.joints import STAGES
from demo_data.generator.numbers import value
from demo_data.generator.plan import Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-10"  # noqa: E741
MON, TUE, WED, THU, FRI, AFTER = "2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05", "2026-03-06", "2026-03-09"
FIRST, SECOND, FITTINGS = 221, 223, 219
AMPS = {
    (FIRST, "J05"): "34.0", (FIRST, "J06"): "28.0", (FIRST, "J07"): "33.0", (FIRST, "J08"): "35.0",
    (SECOND, "J02"): "34.0",
}  # fmt: skip
_LATER = {
    FIRST: {INSPECTED: "2026-03-18", 8: "2026-03-19", 9: "2026-03-20", RELEASED: "2026-03-24", SHIPPED: "2026-03-27"},
    SECOND: {INSPECTED: "2026-03-23", 8: "2026-03-24", 9: "2026-03-25", RELEASED: "2026-03-30", SHIPPED: "2026-04-01"},
}


def plant(plan: Plan, place: Place) -> None:
    """Settle the low currents, the morning of the failure, and what was made again."""
    plan.frames |= {place.number(number) for number in (FIRST, SECOND, FITTINGS)}
    plan.quiet("B1", *(place.day(day) for day in (MON, TUE, WED, THU, FRI, AFTER)))
    for (number, joint), amps in AMPS.items():
        pin = plan.pin(place.number(number), joint)
        pin.values["mean_current"] = amps
        pin.welder = "W04"
    plan.skipped.add(("coupon", ("W04", place.day(THU))))
    plan.facts.setdefault("barred", []).extend([place.day(THU), place.day(FRI)])
    plan.facts["release", place.number(SECOND), "J02", 1] = place.at(WED, "16:20")
    for number, stages in _LATER.items():
        for stage, day in stages.items():
            plan.days[place.number(number), stage] = place.day(day)
    _morning(plan, place)
    _remade(plan, place)
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _morning(plan: Plan, place: Place) -> None:
    pin_runs(plan, place, WED, SECOND, "J01 14:20/14:38 J02 15:04/15:22")
    pin_tacks(plan, place, THU, SECOND, "J04 10:12 J03 10:28 J05 10:36")
    pin_runs(plan, place, THU, SECOND, "J04 11:02/11:20 J03 13:02/13:20 J05 13:44/14:00")
    plan.facts["geometry", place.number(SECOND), "G1"] = place.at(THU, "10:46")
    # The tube was tacked and taken off again; it is tacked and welded once the seam under it is new.
    plan.skipped.add(("weld", (place.number(SECOND), "J06")))


def _remade(plan: Plan, place: Place) -> None:
    second, first = place.number(SECOND), place.number(FIRST)
    friday, monday = place.day(FRI), place.day(AFTER)
    plan.remakes.append(Remake(second, "J02", 2, friday, removed_at=place.at(FRI, "07:52")))
    plan.remakes.append(Remake(second, "J06", 1, friday))
    pin_runs(plan, place, FRI, SECOND, "J02 08:24/08:40", attempt=2)
    pin_tacks(plan, place, FRI, SECOND, "J06 09:58")
    pin_runs(plan, place, FRI, SECOND, "J06 10:07/10:23")
    plan.pin(second, "J06").welder = "W01"
    plan.facts["release", second, "J02", 2] = place.at(FRI, "09:20")
    for joint in ("J05", "J06", "J07"):
        plan.remakes.append(Remake(first, joint, 2, monday))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    dice = story.dice(I)
    named = {"welder": "W04", "procedures": ["T1", "T2"]}
    moment = place.at(THU, "07:50")
    test = story.tell(moment, "TAB-A", "W04", "coupon", **named, result="waiting", photo=dice.hexes(64))
    story.tell(
        moment, "TAB-A", "W04", "coupon", place.at(THU, "10:40"), **named, result="failed", of=test,
        fault="lack of fusion at the root, silver",
    )  # fmt: skip
    tube = {"torch_line": "B1-T", "purge_line": "B1-P", "setup": "LST-S1", "sleeve": "none", "colour": 0}
    tacked = place.at(THU, "10:20")
    story.tell(
        tacked - 150_000, "TAB-A", "W01", "gap", frame=place.serial(SECOND), joint="J06",
        values=value("gap", "0.08", "read", "GG-1"),
    )  # fmt: skip
    story.tell(tacked, "TAB-A", "W01", "tack", frame=place.serial(SECOND), joint="J06", **tube)
    _papers(story, place)
    _answers(story, place)


def _papers(story: Story, place: Place) -> None:
    held = [subject for number, joint in AMPS for subject in subjects(place, number, joint)]
    questions = ("held-by-failed-check", "mean-current")
    late = key(subjects(place, SECOND, "J02")[0], "covered-while-waiting")
    sectioned = [subject for subject in held if subject.endswith("J08#1")]
    rest = [subject for subject in held if subject not in sectioned]
    decided = (
        ("rework", rest, "Cut out and made again by another welder.", ("Q01",)),
        ("use as is", sectioned, "Its sister was sectioned: fused through.", ("Q01", "O01")),
    )
    for index, (choice, chosen, words, people) in enumerate(decided):
        for frame in sorted({subject[:7] for subject in chosen}):
            signed = place.at("2026-03-10" if choice == "use as is" else THU, "16:20") + index * 60_000
            found = [key(subject, q) for subject in chosen if subject.startswith(frame) for q in questions]
            found += [late] if late.startswith(frame) and choice == "rework" else []
            story.sign(
                signed, "decision", f"D-{frame}-coupon-{index + 1}", choice=choice, frame=frame, findings=found,
                reason=words, signatures=signatures(signed, words, *people),
            )  # fmt: skip


def _answers(story: Story, place: Place) -> None:
    find = story.find
    find(I, f"W04@{show(place.at(THU, '07:50'))}", "coupon", "stop")
    for number, joint in AMPS:
        subject = subjects(place, number, joint)[0]
        find(I, subject, "held-by-failed-check", "stop")
        find(I, subject, "mean-current", "decide")
    find(I, subjects(place, SECOND, "J02")[0], "covered-while-waiting", "stop")
    for number in (FIRST, SECOND):
        every = [joint for stage in STAGES["LST"] for joint in stage if (number, joint) not in AMPS]
        story.never(I, subjects(place, number, *every), "held-by-failed-check", "another's, or after the failure")
    fittings = subjects(place, FITTINGS, *span("F", 1, 14))
    story.never(I, fittings, "held-by-failed-check", "fittings are not what the coupon qualifies")
