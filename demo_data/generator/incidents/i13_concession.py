"""I-13: a concession for three named frames, asked for once more after its day, for a fourth."""

from demo_data.generator.devices import iso
from demo_data.generator.frames import Frame
from demo_data.generator.incidents.pinning import subjects
from demo_data.generator.plan import Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-13"  # noqa: E741
CN, JOINT = "CN-25-02", "F08"
USES = {121: "2025-08-29", 123: "2025-09-02", 125: "2025-09-05"}
REFUSED = (161, "2025-11-07", "2025-11-10")


def plant(plan: Plan, place: Place) -> None:
    """Keep chance away, and let the fourth be made again."""
    plan.frames |= {place.number(number) for number in (*USES, REFUSED[0])}
    for day in (*USES.values(), *REFUSED[1:]):
        plan.quiet("B1", place.day(day))
    plan.remakes.append(Remake(place.number(REFUSED[0]), JOINT, 2, place.day(REFUSED[2])))
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    granted = place.at("2025-08-27", "11:15")
    reason = "A wider tint of grade 3 up to 8 mm from the toe of a cable guide bears no load; until October."
    story.sign(
        granted, "concession", CN, question="outside-colour", frames=[place.serial(number) for number in USES],
        joints=["F07", "F08", "F09", "F10"], count=3, expires=iso(place.at("2025-10-31", "23:59")), reason=reason,
        signatures=signatures(granted, reason, "Q01", "O01"),
    )  # fmt: skip
    for number, day in (*USES.items(), REFUSED[:2]):
        _use(shop, story, place, shop.frames[place.number(number)], number, day)
    story.find(I, subjects(place, REFUSED[0], JOINT)[0], "concession-left", "stop")
    for number in (*USES, REFUSED[0]):
        story.find(I, subjects(place, number, JOINT)[0], "outside-colour", "decide")
    for number in USES:
        story.never(I, subjects(place, number, JOINT), "concession-left", "named, inside count and day")


def _use(shop: Shop, story: Story, place: Place, frame: Frame, number: int, day: str) -> None:
    del shop
    welded = [
        h for h in story.happenings
        if h.fields.get("frame") == frame.serial and h.fields.get("joint") == JOINT and h.fields["kind"] == "look"
    ]  # fmt: skip
    if not welded:
        return
    seen = welded[0]
    story.tell(
        seen.at + 20_000, seen.device, seen.who, "look", frame=frame.serial, joint=JOINT, side="outside", zone="tint",
        grade=3, extent_mm="8",
    )  # fmt: skip
    signed = max(place.at(day, "16:10"), seen.at + 900_000)
    words = f"Used under {CN}." if number in USES else f"Asked for under {CN} and refused: spent, and past its day."
    choice = "use as is" if number in USES else "rework"
    people = ("Q01", "O01") if number in USES else ("Q01",)
    story.sign(
        signed, "decision", f"D-{frame.serial}-{CN}", choice=choice, frame=frame.serial, concession=CN, reason=words,
        findings=[key(subjects(place, number, JOINT)[0], "outside-colour")],
        signatures=signatures(signed, words, *people),
    )  # fmt: skip
