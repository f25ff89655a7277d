"""I-14: a frame released and shipped while a tablet lay in a drawer with three more entries about it."""

from demo_data.generator.devices import Boot
from demo_data.generator.incidents.pinning import pin_fittings, subjects
from demo_data.generator.plan import Pin, Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.story import Story

I = "I-14"  # noqa: E741
TUE, FOUND = "2026-05-05", "2026-05-18"
NUMBER, HEARD = 251, 249
JOINT = "F12"


def plant(plan: Plan, place: Place) -> None:
    """Settle the afternoon's fittings, the third go, and when the tablet spoke again."""
    at, number, day = place.at, place.number(NUMBER), place.day(TUE)
    plan.frames |= {number, place.number(HEARD)}
    plan.quiet("B1", day)
    pin_fittings(plan, place, TUE, NUMBER, 1, "13:48", 10, 14)
    third = Pin(root=at(TUE, "16:18"), fill=at(TUE, "16:18"), looks=False, device="TAB-C", welder="W04")
    plan.remakes.append(Remake(number, JOINT, 1, day, runs=("wash",), stage=4, pin=third))
    plan.facts["drawer"] = (at(TUE, "16:30"), at(FOUND, "09:00"))
    plan.boots["TAB-C"] = [Boot(at(FOUND, "09:02"), "e3b7", 21_000)]
    plan.tablets.append(("TAB-C", at(TUE, "16:12"), at(FOUND, "09:00"), "TAB-A"))
    plan.skipped.add(("closed", ("TAB-C", number, day)))
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    named = {"frame": place.serial(NUMBER), "joint": JOINT}
    story.tell(place.at(TUE, "16:20"), "TAB-C", "W04", "look", **named, side="outside", zone="bead", grade=4)
    story.tell(place.at(TUE, "16:21"), "TAB-C", "W04", "problem", **named, words="F12 went blue", what="tint")
    silent = [
        h for h in story.happenings
        if h.device == "TAB-C" and place.at(TUE, "16:12") <= h.tapped < place.at(TUE, "16:31")
    ]  # fmt: skip
    for place_in_line, happening in enumerate(sorted(silent, key=lambda h: h.tapped)):
        happening.sent = place.at(FOUND, "09:05") + place_in_line * 500
    written = place.at("2026-05-20", "10:40")
    story.sign(
        written, "customer", "C-10", name="Tove Marrable", address="66 Chandlers Yard, Merrowby, Isle of Ketterholm",
        note="written to about one boss; no answer yet",
    )  # fmt: skip
    _answers(story, place)


def _answers(story: Story, place: Place) -> None:
    boss, release = subjects(place, NUMBER, JOINT)[0], f"{place.serial(NUMBER)}@release"
    story.find(I, boss, "fusions", "decide")
    story.find(I, boss, "outside-colour", "decide")
    story.find(I, release, "look-again", "decide")
    story.find(I, release, "tablets-heard", "decide", book="today")
    story.never(I, subjects(place, NUMBER, "F11", "F13", "F14"), "*", "nothing happened to them")
    story.never(I, [f"{place.serial(HEARD)}@release"], "tablets-heard", "the tablet sent after it", "today")
    story.never(I, [release], "tablets-heard", "the rule came in later")
