"""I-07: a tablet without network over a weekend; 61 entries sent twice, a release given on a slip."""

from demo_data.generator.devices import Outage
from demo_data.generator.incidents.pinning import pin_runs, pin_tacks, subjects
from demo_data.generator.joints import QUARTERS
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.story import Story

I = "I-07"  # noqa: E741
THU, FRI, MON = "2026-02-12", "2026-02-13", "2026-02-16"
BIKE, CHAIR = 212, 210
PICTURED = ((BIKE, "J01"), (CHAIR, "K05"))
SLIP = "slip J01 1640"
_ALL = {
    BIKE: ("J01", "J02", "J04", "J06", "J03", "J05"),
    CHAIR: ("K05", "K06", "K07", "K08", "K09", "K10"),
}


def plant(plan: Plan, place: Place) -> None:
    """Settle two days at the bench, the change of gas, and when which entries were sent."""
    plan.frames |= {place.number(BIKE), place.number(CHAIR)}
    days = [place.day(day) for day in (THU, FRI, MON)]
    plan.quiet("B2", *days)
    at = place.at
    plan.outages.append(Outage("TAB-B", at(THU, "13:30"), at(MON, "08:26"), ((at(MON, "08:10"), 38),)))
    plan.tablets.append(("TAB-B", at(THU, "13:30"), at(MON, "08:30"), "TAB-Q"))
    plan.facts["checks on", "B2", days[2]] = "TAB-Q"
    plan.facts["begin", "B2", days[2]] = at(MON, "09:24")
    plan.facts["begin", "B2", days[0]] = at(THU, "07:49")
    plan.changes.setdefault("B2-P", []).extend([(at("2026-02-02", "13:05"), "AR-0671"), (at(FRI, "10:05"), "AR-0688")])
    _hours(plan, place)
    plan.skipped.add(("purge bead", ("B2", days[1])))
    plan.facts["morning", "B2", days[1]] = at(FRI, "07:36")
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _hours(plan: Plan, place: Place) -> None:
    pin_runs(plan, place, THU, BIKE, "J01 13:52/14:20 J02 14:48/15:06")
    pin_runs(plan, place, THU, CHAIR, "K05 15:34/15:52 K06 16:10/16:27")
    pin_tacks(plan, place, FRI, BIKE, "J04 07:52 J06 08:01 J03 08:11 J05 08:20")
    pin_runs(plan, place, FRI, BIKE, "J04 09:05/09:22 J06 10:08/10:31 J03 11:04/11:22 J05 13:02/13:19")
    pin_runs(plan, place, FRI, CHAIR, "K07 13:58/14:14 K08 14:36/14:50 K09 15:12/15:26 K10 15:45/15:58")
    number = place.number(BIKE)
    for joint in ("J03", "J05"):
        plan.pin(number, joint).inside = ()
    plan.facts["geometry", number, "G1"] = place.at(FRI, "08:41")
    plan.facts["release", number, "J02", 1] = place.at(MON, "09:10")
    plan.facts["release", number, "J03", 1] = place.at(MON, "09:14")
    plan.skipped.add(("release", (number, "J01", 1)))
    for joint in ("K13", "K14", "K15", "K16"):
        plan.pin(place.number(CHAIR), joint)
    plan.pin(number, "J01").tack = place.at(THU, "13:42")
    plan.skipped |= {("photo", f"{place.serial(of)}/{joint}#1") for of, joint in PICTURED}


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    slip = {"frame": place.serial(BIKE), "joint": "J01", "provisional": True, "slip": SLIP, "role": "quality lead"}
    story.tell(place.at(THU, "16:40"), "TAB-Q", "Q01", "release", **slip)
    story.tell(place.at(THU, "16:44"), "TAB-B", "Q01", "release", **slip, note="the slip, scanned at the bench")
    for joint, grade in (("J03", 0), ("J05", 1)):
        dice = story.dice(I, joint)
        photo, moment = dice.hexes(64), place.at(FRI, "15:30") + grade * 90_000
        named = {"frame": place.serial(BIKE), "joint": joint, "side": "inside"}
        story.tell(
            moment, "TAB-Q", "Q01", "look", **named, zone="bead", grade=grade, photo=photo, role="quality lead"
        )
        picture = story.tell(moment, "TAB-Q", "Q01", "photo", **named, sha256=photo, looks_like=dice.hexes(16))
        picture.moments["taken"] = moment - 5_000
    for number, joint in PICTURED:
        _late_picture(story, place, number, joint)
    _answers(story, place)


def _late_picture(story: Story, place: Place, number: int, joint: str) -> None:
    look = next(
        h for h in story.happenings
        if h.fields.get("frame") == place.serial(number) and h.fields.get("joint") == joint and h.fields.get("photo")
    )  # fmt: skip
    moment = place.at(MON, "08:40")
    picture = story.tell(
        moment, "TAB-B", "W02", "photo", moment, frame=place.serial(number), joint=joint, side="inside",
        sha256=look.fields["photo"], looks_like=story.dice(I, number).hexes(16),
    )  # fmt: skip
    picture.moments["taken"] = look.at - 5_000


def _answers(story: Story, place: Place) -> None:
    every = [subject for number, joints in _ALL.items() for subject in subjects(place, number, *joints)]
    crossed = subjects(place, BIKE, "J06")[0]
    story.find(I, crossed, "weld-before-bead", "note")
    shell = subjects(place, BIKE, "J01")
    story.never(I, shell, "released-before-covered", "released on a slip, full when the passes arrived")
    quarters = [f"{shell[0]}:{quarter}" for quarter in QUARTERS]
    story.never(I, quarters, "finished-before-covered", "finished at 14:20, before anything lay over it")
    story.never(I, every, "look-again", "the same facts, late because of the network")
    rest = [subject for subject in every if subject != crossed]
    story.never(I, rest, "weld-before-bead", "before the change or after the bead")
