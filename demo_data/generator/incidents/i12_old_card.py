"""I-12: a tablet that showed the old revisions for two and a half days; four of fourteen joints over the new."""

from demo_data.generator.incidents.pinning import pin_runs, subjects
from demo_data.generator.plan import Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-12"  # noqa: E741
MON, TUE, WED, THU, FRI = "2025-05-05", "2025-05-06", "2025-05-07", "2025-05-08", "2025-05-09"
FIRST, SECOND = 64, 66
SHOWN = {
    FIRST: ("K05", "K06", "K07", "K08", "K09", "K10", "K13", "K14", "K15", "K16"),
    SECOND: ("K01", "K02", "K11", "K12"),
}
OVER = {(FIRST, "K13"): (28, 9), (FIRST, "K09"): (34, 8), (SECOND, "K01"): (24, 9)}
DARK = (SECOND, "K11")
_HOURS = (
    (MON, FIRST, "K13 08:40/08:54 K14 09:18/09:32 K15 09:58/10:12 K16 10:36/10:50 K05 11:16/11:34 K06 13:10/13:28"),
    (TUE, SECOND, "K01 08:22/08:38 K02 09:02/09:18 K11 09:44/09:59 K12 10:24/10:39"),
    (TUE, FIRST, "K07 11:20/11:34 K08 13:00/13:14 K09 13:38/13:51 K10 14:16/14:29"),
)
_PURGE = (6.8, "7.2")


def plant(plan: Plan, place: Place) -> None:
    """Settle which card was shown, what was read, and what was looked at inside."""
    plan.frames |= {place.number(FIRST), place.number(SECOND)}
    plan.quiet("B2", *(place.day(day) for day in (MON, TUE, WED, THU, FRI)))
    for day, number, told in _HOURS:
        for pin in pin_runs(plan, place, day, number, told):
            pin.pre_purge = _PURGE
            pin.inside = (((pin.fill or 0) + 150_000, 1 if (pin.fill or 0) % 3 == 0 else 0),)
    for number, joints in SHOWN.items():
        for joint in joints:
            plan.pin(place.number(number), joint).card = "T2 A" if joint in ("K05", "K06", "K09", "K10") else "T1 B"
    for (number, joint), oxygen in OVER.items():
        plan.pin(place.number(number), joint).oxygen = oxygen
    dark = plan.pin(place.number(DARK[0]), DARK[1])
    dark.inside = (((dark.fill or 0) + 150_000, 2),)
    plan.facts["begin", "B2", place.day(WED)] = place.at(WED, "10:02")
    plan.facts["post flow", "B2"] = {place.day(day): 20 for day in (MON, TUE)}
    for number, joint, day in ((FIRST, "K13", THU), (FIRST, "K09", THU), (SECOND, "K01", FRI), (SECOND, "K11", FRI)):
        plan.remakes.append(Remake(place.number(number), joint, 2, place.day(day)))
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    signed = place.at(WED, "10:40")
    for number, found in (
        (FIRST, [(FIRST, "K13", "purge-o2"), (FIRST, "K09", "purge-o2")]),
        (SECOND, [(SECOND, "K01", "purge-o2"), (SECOND, "K11", "inside-colour")]),
    ):
        words = "Outside the limits in force since Monday; cut out and made again under the new revision."
        keys = [key(subjects(place, of, joint)[0], question) for of, joint, question in found]
        frame = place.serial(number)
        story.sign(
            signed + number * 1000, "decision", f"D-{frame}-card", choice="rework", frame=frame, findings=keys,
            reason=words, signatures=signatures(signed + number * 1000, words, "Q01"),
        )  # fmt: skip
    for number, joints in SHOWN.items():
        for subject in subjects(place, number, *joints):
            story.find(I, subject, "revision-in-force", "note")
    for number, joint in OVER:
        story.find(I, subjects(place, number, joint)[0], "purge-o2", "decide")
    story.find(I, subjects(place, *DARK)[0], "inside-colour", "decide")
    story.never(I, subjects(place, SECOND, "K03", "K04"), "revision-in-force", "after ten on Wednesday")
    frames = [f"{place.serial(number)}/*" for number in (63, 65, 67)]
    story.never(I, frames, "revision-in-force", "the other booth's tablet had the new card")
