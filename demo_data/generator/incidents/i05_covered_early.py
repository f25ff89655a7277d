"""I-05: seams hidden before they were finished or released, once on a touring cycle and once on a step-through."""

from demo_data.generator.days import MINUTE
from demo_data.generator.incidents.pinning import pin_runs, pin_tacks, subjects
from demo_data.generator.plan import Pin, Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-05"  # noqa: E741
WED, THU, FRI = "2025-06-11", "2025-06-12", "2025-06-13"
BEFORE, MONDAY = "2026-01-30", "2026-02-02"
CN = "CN-25-01"


def plant_tour(plan: Plan, place: Place) -> None:
    """Settle the touring cycle: two quarters of J01 filled, the down tube tacked over the third, then filled on."""
    number = place.number(87)
    plan.frames.add(number)
    plan.quiet("B1", *(place.day(day) for day in (WED, THU, FRI)))
    pin_runs(plan, place, WED, 87, "J01 15:24/16:50 J02 15:50/16:06")
    pin_tacks(plan, place, WED, 87, "J01 15:12 J02 15:38")
    shell = plan.pin(number, "J01")
    shell.quarters, shell.looks = ("q3", "q6"), False
    rest = Pin(root=place.at(THU, "09:40"), fill=place.at(THU, "09:40"), quarters=("q9", "q12"), inside=())
    plan.remakes.append(Remake(number, "J01", 1, place.day(THU), runs=("fill",), stage=1, pin=rest))
    pin_tacks(plan, place, THU, 87, "J04 08:48 J06 08:56 J03 09:04 J05 09:12")
    pin_runs(plan, place, THU, 87, "J04 10:08/10:25 J06 10:50/11:06 J03 11:28/11:46 J05 13:12/13:28")
    plan.facts["release", number, "J02", 1] = place.at(WED, "16:32")
    plan.facts["release", number, "J01", 1] = place.at(THU, "14:05")
    plan.facts["geometry", number, "G1"] = place.at(THU, "09:26")
    plan.told.append(("I-05a", lambda shop, story: _tell_tour(shop, story, place)))


def _tell_tour(shop: Shop, story: Story, place: Place) -> None:
    del shop
    named = {"frame": place.serial(87), "joint": "J01", "side": "inside", "zone": "bead"}
    early, seen = place.at(THU, "09:46"), place.at(FRI, "07:50")
    story.tell(early, "TAB-A", "W01", "look", **named, grade=0, quarters=["q3", "q6", "q9"])
    story.tell(seen, "TAB-Q", "Q01", "look", **named, grade=1, quarters=["q12"], role="quality lead")
    found = [key(f"{place.serial(87)}/J01#1:q12", "finished-before-covered")]
    found += [key(subject, "released-before-covered") for subject in subjects(place, 87, "J01")]
    reason = "q12 was seen through the shell: one step of straw, no lack of fusion; it is hidden and sound."
    moment = seen + 95 * MINUTE
    story.sign(
        moment, "concession", CN, question="finished-before-covered", frames=[place.serial(87)], joints=["J01"],
        count=1, reason=reason, signatures=signatures(moment, reason, "Q01", "O01"),
    )  # fmt: skip
    story.sign(
        moment + MINUTE, "decision", f"D-{CN}", choice="use as is", findings=found, frame=place.serial(87),
        reason=reason, concession=CN, signatures=signatures(moment + MINUTE, reason, "Q01", "O01"),
    )  # fmt: skip
    story.find(I, f"{place.serial(87)}/J01#1:q12", "finished-before-covered", "stop")
    story.find(I, f"{place.serial(87)}/J01#1", "released-before-covered", "decide")
    quarters = [f"{place.serial(87)}/J01#1:{quarter}" for quarter in ("q3", "q6", "q9")]
    story.never(I, quarters, "finished-before-covered", "finished, or never hidden by the down tube")
    story.never(I, subjects(place, 87, "J09", "J10"), "*", "tacked Friday after the release")


def plant_step_through(plan: Plan, place: Place) -> None:
    """Settle the step-through: the gusset tacked over a finished seam that was released only afterwards."""
    number = place.number(204)
    plan.frames.add(number)
    plan.quiet("B2", place.day(BEFORE), place.day(MONDAY))
    pin_tacks(plan, place, BEFORE, 204, "J04 08:02 J06 08:10 J03 08:18 J05 08:26")
    pin_runs(plan, place, BEFORE, 204, "J04 08:58/09:14 J06 09:32/09:47 J03 10:08/10:26 J05 10:56/11:12")
    plan.facts["geometry", number, "G1"] = place.at(BEFORE, "08:42")
    plan.pin(number, "J03").looked = place.at(BEFORE, "10:34")
    pin_tacks(plan, place, MONDAY, 204, "J19 09:12 J20 09:50")
    pin_runs(plan, place, MONDAY, 204, "J19 09:23/09:36 J20 09:59/10:12")
    plan.facts["release", number, "J03", 1] = place.at(MONDAY, "11:40")
    plan.told.append(("I-05b", lambda shop, story: _tell_step_through(shop, story, place)))


def _tell_step_through(shop: Shop, story: Story, place: Place) -> None:
    del shop
    story.find(I, f"{place.serial(204)}/J03#1", "released-before-covered", "note")
    quarters = [f"{place.serial(204)}/J03#1:{quarter}" for quarter in ("q12", "q3", "q6", "q9")]
    story.never(I, quarters, "finished-before-covered", "finished the working day before")


