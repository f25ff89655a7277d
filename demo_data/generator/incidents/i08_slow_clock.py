"""I-08: a tablet's clock 47 minutes slow for two days, mended within one boot before the last entries were sent."""

from demo_data.generator.days import show
from demo_data.generator.devices import Boot, Outage
from demo_data.generator.incidents.pinning import pin_runs, pin_tacks, subjects
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-08"  # noqa: E741
TUE, WED, THU = "2026-03-24", "2026-03-25", "2026-03-26"
SLOW_MS = -2_830_000


def plant(plan: Plan, place: Place) -> None:
    """Settle three mornings of one frame, and the clock they were logged by."""
    number = place.number(233)
    plan.frames.add(number)
    plan.quiet("B1", *(place.day(day) for day in (TUE, WED, THU)))
    plan.boots["TAB-A"] = [Boot(place.at(TUE, "07:10"), "5d0a", SLOW_MS, place.at(THU, "12:15"))]
    plan.outages.append(Outage("TAB-A", place.at(THU, "11:37:30"), place.at(THU, "12:21")))
    for joint in ("J05", "J06", "J07", "J08"):
        plan.pin(number, joint).welder = "W01"
    pin_tacks(plan, place, TUE, 233, "J04 08:07 J06 08:11 J03 08:15 J05 08:19")
    pin_runs(plan, place, TUE, 233, "J04 08:39/08:56 J06 09:20/09:36 J03 10:00/10:18 J05 10:42/10:58")
    pin_tacks(plan, place, WED, 233, "J07 08:37")
    pin_runs(plan, place, WED, 233, "J07 08:47/08:59 J08 09:22/09:34 J09 10:02/10:18 J10 10:44/11:00")
    pin_tacks(plan, place, THU, 233, "J13 09:02 J11 11:38 J12 11:54")
    pin_runs(plan, place, THU, 233, "J13 09:11/09:23 J14 09:42/09:54 J15 10:12/10:26 J16 10:44/10:58")
    pin_runs(plan, place, THU, 233, "J11 11:43/11:50 J12 11:59/12:06 J17 13:12/13:22 J18 13:44/13:54")
    plan.pin(number, "J11").looked, plan.pin(number, "J12").looked = place.at(THU, "12:09"), place.at(THU, "12:42")
    plan.facts["gap", number, "J11"], plan.facts["gap", number, "J12"] = place.at(THU, "11:34"), place.at(THU, "11:35")
    for check, day, clock in (("G1", TUE, "08:25"), ("G2", WED, "08:20"), ("G3", THU, "09:14")):
        plan.facts["geometry", number, check] = place.at(day, clock)
    plan.facts["deviation", number, "G3"] = "0.40"
    plan.facts["begin", "B1", place.day(TUE)] = place.at(TUE, "08:20")
    plan.skipped.add(("torch bead", ("B1", place.day(TUE))))
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    moment = place.at(TUE, "08:05")
    story.tell(
        moment, "TAB-Q", "W01", "bead", line="B1-T", cylinder=shop.gas.on("B1-T", moment), result="good", grade=0,
        why="shift", photo=story.dice(I, "bead").hexes(64),
    )  # fmt: skip
    found = [key(subject, "geometry-before-next") for subject in subjects(place, 233, "J13")]
    reason = "The table showed 0.40 mm twelve minutes later, well inside; nothing moved between."
    signed = place.at("2026-03-27", "09:20")
    story.sign(
        signed, "decision", "D-0233-1", choice="accept", findings=found, frame=place.serial(233), reason=reason,
        signatures=signatures(signed, reason, "Q01"),
    )  # fmt: skip
    story.find(I, f"TAB-A@{show(place.at(TUE, '07:10'))}", "clock", "note")
    story.find(I, subjects(place, 233, "J13")[0], "geometry-before-next", "decide")
    story.never(I, subjects(place, 233, "J04", "J07"), "geometry-before-next", "right once the clock is corrected")
    story.never(I, subjects(place, 233, "J04"), "weld-before-bead", "right once the clock is corrected")
