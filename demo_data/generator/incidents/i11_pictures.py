"""I-11: one borescope picture attached to two joints, a copy of another, and two that merely look alike."""

from demo_data.generator.days import MINUTE
from demo_data.generator.dice import Dice
from demo_data.generator.incidents.pinning import pin_runs, subjects
from demo_data.generator.plan import Place, Plan
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-11"  # noqa: E741
DAY, CHAIR, BIKE = "2025-12-03", 178, 177
_MIRRORED_BITS, _COPIED_BITS = 0x0F0F_0000_00FF_0F0F, 0x0000_0001_0000_0100


def plant(plan: Plan, place: Place) -> None:
    """Settle the day's pictures."""
    day, at = place.day(DAY), place.at
    plan.frames |= {place.number(CHAIR), place.number(BIKE)}
    plan.quiet("B1", day)
    plan.quiet("B2", day)
    dice = Dice(0, I)
    pin_runs(plan, place, DAY, CHAIR, "K04 10:30/10:48 K03 11:18/11:38")
    shared = (dice.hexes(64), dice.hexes(16), at(DAY, "11:47"))
    first, second = plan.pin(place.number(CHAIR), "K03"), plan.pin(place.number(CHAIR), "K04")
    first.inside, first.photo = ((at(DAY, "11:47"), 0),), shared
    second.inside, second.photo = ((at(DAY, "12:31"), 0),), shared
    pin_runs(plan, place, DAY, BIKE, "J07 08:20/08:34 J08 08:58/09:12 J09 09:40/09:56 J10 10:24/10:40")
    for (joint, other), bits in ((("J07", "J08"), _MIRRORED_BITS), (("J09", "J10"), _COPIED_BITS)):
        like = int(dice.hexes(16), 16)
        for name, look in ((joint, like), (other, like ^ bits)):
            pin = plan.pin(place.number(BIKE), name)
            moment = (pin.fill or 0) + 3 * MINUTE
            pin.inside, pin.photo = ((moment, 0),), (dice.hexes(64), f"{look:016x}", moment - 5000)
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    dice, moment = story.dice(I, "new"), place.at(DAY, "15:10")
    named = {"frame": place.serial(CHAIR), "joint": "K04", "side": "inside"}
    photo = dice.hexes(64)
    story.tell(moment, "TAB-Q", "Q01", "look", **named, zone="bead", grade=1, photo=photo, role="quality lead")
    picture = story.tell(moment, "TAB-Q", "Q01", "photo", **named, sha256=photo, looks_like=dice.hexes(16))
    picture.moments["taken"] = moment - 5_000
    words = "A new picture was taken before the brace; inside one step of straw."
    signed, frame = place.at(DAY, "15:20"), place.serial(CHAIR)
    story.sign(
        signed, "decision", f"D-{frame}-picture", choice="accept", frame=frame, reason=words,
        findings=[key(subjects(place, CHAIR, "K04")[0], "photo-own")], signatures=signatures(signed, words, "Q01"),
    )  # fmt: skip
    story.find(I, subjects(place, CHAIR, "K04")[0], "photo-own", "stop")
    story.find(I, subjects(place, BIKE, "J10")[0], "photo-alike", "note")
    story.never(I, subjects(place, BIKE, "J07", "J08"), "photo-alike", "mirrored joints")
    story.never(I, subjects(place, CHAIR, "K03"), "photo-own", "the original")
