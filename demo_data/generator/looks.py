"""Writes the looks at one joint: outside after the last run, inside where the plan asks and the joint lets one see."""

from datetime import date

from demo_data.generator.crew import REVISED
from demo_data.generator.days import MINUTE
from demo_data.generator.dice import Dice
from demo_data.generator.frames import Frame
from demo_data.generator.joints import STAGES, seam
from demo_data.generator.shop import Shop
from demo_data.generator.story import Happening, Story
from demo_data.generator.tapping import tap
from demo_data.generator.weld import SECOND, Weld

NO_ACCESS = "the scope does not pass the purge hole with the plug in"


def tell_looks(shop: Shop, story: Story, weld: Weld, dice: Dice) -> None:
    """Write the outside look, a look at the edge where it is coloured, and the inside look."""
    outside = dice.pick((0.84, 0), (0.16, 1)) if weld.quiet else dice.pick((0.82, 0), (0.16, 1), (0.02, 1))
    if weld.fate and weld.fate.quantity == "outside":
        outside = int(weld.fate.value)
    outside = outside if weld.pin.outside is None else weld.pin.outside
    _look(shop, story, weld, weld.looked, dice, side="outside", zone="bead", grade=outside)
    if weld.seam.structural and dice.chance(0.12) and not weld.quiet:
        _look(shop, story, weld, weld.looked + 8 * SECOND, dice, side="outside", zone="edge", grade=dice.whole(3, 5))
    weld.inside_looks = _inside(weld, dice)
    for moment, grade in weld.inside_looks:
        _inside_look(shop, story, weld, moment, grade, dice)


def asked_inside(frame: Frame, joint: str, day: date) -> bool:
    """Say whether the measuring plan asks for an inside look: where it is seen, or one partly seen joint a stage."""
    inside = seam(joint).inside
    if inside == "F":
        return True
    if inside == "N":
        return False
    if day >= REVISED:
        return True
    partly = [other for other in STAGES[frame.design][frame.stage_of(joint)] if seam(other).inside == "P"]
    return joint == partly[frame.number % len(partly)]


def _inside(weld: Weld, dice: Dice) -> list[tuple[int, int | None]]:
    if weld.pin.inside is not None:
        return list(weld.pin.inside)
    asked = asked_inside(weld.frame, weld.joint, weld.day)
    if not asked and not (weld.procedure == "R1" and weld.seam.inside != "N"):
        return []
    moment = weld.looked + round(dice.between(30, 70)) * SECOND
    if weld.fate and weld.fate.quantity == "inside":
        return [(moment, int(weld.fate.value))]
    blind = weld.seam.inside == "P" and weld.day >= REVISED and not weld.quiet and weld.procedure != "R1"
    if blind and dice.chance(0.12):
        return [(moment, None)]
    darkest = 1 if weld.day >= REVISED or weld.quiet else 2
    return [(moment, dice.pick((0.72, 0), (0.24, 1), (0.04, darkest)))]


def _inside_look(shop: Shop, story: Story, weld: Weld, moment: int, grade: int | None, dice: Dice) -> None:
    if grade is None:
        _look(shop, story, weld, moment, dice, side="inside", answer="no access", reason=NO_ACCESS)
        return
    pictured = weld.day >= REVISED
    photo, like, taken = weld.pin.photo or (dice.hexes(64), dice.hexes(16), moment - 5 * SECOND)
    _look(shop, story, weld, moment, dice, side="inside", zone="bead", grade=grade, photo=photo if pictured else None)
    if pictured and ("photo", weld.subject) not in shop.plan.skipped:
        tell_photo(shop, story, weld, moment + MINUTE, (photo, like, taken))


def tell_photo(shop: Shop, story: Story, weld: Weld, moment: int, picture: tuple[str, str, int]) -> None:
    """Write a picture of the inside: its digest, its look, and when it was taken."""
    tablet = shop.other_tablet(shop.tablet(weld), moment)
    told = story.tell(
        moment, tablet, weld.welder, "photo", moment, frame=weld.frame.serial, joint=weld.joint, side="inside",
        sha256=picture[0], looks_like=picture[1],
    )  # fmt: skip
    told.moments["taken"] = picture[2]


def _look(shop: Shop, story: Story, weld: Weld, moment: int, dice: Dice, **fields: object) -> Happening:
    named: dict[str, object] = {"frame": weld.frame.serial, "joint": weld.joint}
    if weld.attempt > 1:
        named["attempt"] = weld.attempt
    happening = story.tell(moment, shop.tablet(weld), weld.welder, "look", **named, **fields, card=shop.card(weld))
    tap(happening, weld, dice)
    return happening
