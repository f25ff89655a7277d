"""I-03: a sleeve with the wrong label, its rod ends not read at opening; found weeks later in what was left of it."""

from demo_data.generator.incidents.pinning import pin_runs, pin_tacks, span, subjects
from demo_data.generator.joints import STAGES
from demo_data.generator.plan import Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-03"  # noqa: E741
MON, TUE, WED, THU, FRI = "2025-08-18", "2025-08-19", "2025-08-20", "2025-08-21", "2025-08-22"
WRONG, OLD, RIGHT, NEXT = "FT-0192", "FT-0188", "FT-0193", "FT-0194"
FIRST, SECOND, THIRD, INSTEAD = 115, 117, 119, 137
IN_WRONG = {
    FIRST: ("J15", "J16", "J11", "J12", "J17", "J18"),
    SECOND: ("J01", "J02", "J04", "J06", "J03", "J05", "J09", "J10"),
    THIRD: ("J02", "J04", "J06"),
}
IN_RIGHT: dict[int, dict[str, tuple[str, ...]]] = {
    FIRST: {OLD: ("J13", "J14")},
    SECOND: {RIGHT: ("J07", "J08", *STAGES["LST"][3])},
    THIRD: {RIGHT: ("J01", "J03", "J05")},
}
NCR = "NCR-25-014"


def plant(plan: Plan, place: Place) -> None:
    """Settle the sleeves at the bench, which fill named which, and what became of the three frames."""
    plan.frames |= {place.number(number) for number in (FIRST, SECOND, THIRD, INSTEAD)}
    plan.quiet("B1", *(place.day(day) for day in (MON, TUE, WED, THU, FRI)))
    at = place.at
    plan.sleeves += [
        (OLD, "B1", at("2025-08-06", "07:43"), at(MON, "10:15")),
        ("FT-0190", "B2", None, None),
        ("FT-0191", "B2", None, None),
        (WRONG, "B1", at(MON, "10:20"), at(THU, "15:30")),
        (RIGHT, "B1", at(MON, "10:25"), at(FRI, "16:30")),
        (NEXT, "B1", at("2025-08-25", "07:42"), None),
    ]
    plan.facts["label", WRONG] = ("F9-A11", "ERTi-9")
    plan.skipped.add(("rod ends", WRONG))
    for number, joints in IN_WRONG.items():
        for joint in joints:
            plan.pin(place.number(number), joint).sleeve = WRONG
    for number, sleeves in IN_RIGHT.items():
        for sleeve, joints in sleeves.items():
            for joint in joints:
                plan.pin(place.number(number), joint).sleeve = sleeve
    _hours(plan, place)
    _remade(plan, place)
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _hours(plan: Plan, place: Place) -> None:
    pin_runs(plan, place, MON, FIRST, "J13 08:20/08:36 J14 09:00/09:14 J15 10:28/10:44 J16 11:04/11:20")
    pin_runs(plan, place, MON, FIRST, "J11 11:38/11:49 J12 12:58/13:09 J17 13:26/13:37 J18 13:54/14:05")
    pin_runs(plan, place, MON, SECOND, "J01 14:44/15:00 J02 15:28/15:46")
    pin_tacks(plan, place, THU, THIRD, "J04 13:00 J06 13:08 J03 13:16 J05 13:24")
    pin_runs(plan, place, THU, THIRD, "J04 13:58/14:14 J06 14:36/14:50 J03 15:12/15:28 J05 15:50/16:06")
    plan.facts["geometry", place.number(THIRD), "G1"] = place.at(THU, "13:38")


def _remade(plan: Plan, place: Place) -> None:
    number = place.number(FIRST)
    wed, thu = place.day("2025-10-01"), place.day("2025-10-02")
    new, both = "new stays and bridges", ("Q01", "O01")
    for joint in ("J13", "J14"):
        plan.remakes.append(Remake(number, joint, 2, wed, method=new, approved_by=both, piece_replaced=True))
    for joint in ("J15", "J16"):
        plan.remakes.append(Remake(number, joint, 2, wed, "R1", method="ground out", approved_by=both))
    for joint in ("J11", "J12", "J17", "J18"):
        plan.remakes.append(Remake(number, joint, 2, thu, method=new, approved_by=both, piece_replaced=True))
    plan.facts.setdefault("shipped again", []).append((place.day("2025-10-10"), place.serial(FIRST), number))


def _tell(shop: Shop, story: Story, place: Place) -> None:
    found = place.at("2025-09-12", "10:35")
    story.tell(found, "TAB-Q", "Q01", "sleeve", sleeve=WRONG, act="checked", rod_ends="ERTi-2", role="quality lead")
    _papers(story, place)
    for number, stage, day, clock in (
        (FIRST, "returned", "2025-09-22", "11:20"), (THIRD, "returned", "2025-09-24", "14:05"),
        (THIRD, "scrapped", "2025-09-26", "10:50"), (FIRST, "released", "2025-10-09", "11:30"),
        (FIRST, "shipped", "2025-10-10", "13:40"),
    ):  # fmt: skip
        who = "F01" if stage in ("returned", "shipped") else "Q01"
        story.tell(place.at(day, clock), "TAB-Q", who, "stage", frame=place.serial(number), stage=stage)
    story.find(I, WRONG, "rod-ends-checked", "decide", "unknown")
    story.find(I, WRONG, "rod-ends-agree", "stop")
    for number, joints in IN_WRONG.items():
        for subject in subjects(place, number, *joints):
            story.find(I, subject, "rod-class", "stop")
    _decoys(story, place)
    del shop


def _papers(story: Story, place: Place) -> None:
    moment = place.at("2025-09-12", "11:40")
    held = [subject for number, joints in IN_WRONG.items() for subject in subjects(place, number, *joints)]
    story.sign(
        moment, "nonconformity", NCR, title=f"sleeve {WRONG} held rods of another class than its label says",
        findings=[key(subject, "rod-class") for subject in held], held=held, cause="wrong label printed at receiving",
        containment="Three customers written to the same day; the sleeve is locked away.",
        action="Rod ends are read aloud at opening; the label printer asks for the lot twice.",
        signatures=signatures(moment, "Seventeen fills on three frames, all delivered.", "Q01", "O01"),
    )  # fmt: skip
    decided = (
        (FIRST, "rework", ("J11", "J12", "J17", "J18"), "New stays and bridges; J13 and J14 are made again with them."),
        (FIRST, "repair", ("J15", "J16"), "Ground out and repaired under the repair procedure."),
        (THIRD, "scrap", IN_WRONG[THIRD], "The frame is scrapped and its serial retired; another is sent instead."),
    )
    for index, (number, choice, joints, reason) in enumerate(decided):
        signed = place.at("2025-09-26", f"10:{20 + index}")
        story.sign(
            signed, "decision", f"D-{NCR}-{index + 1}", choice=choice, frame=place.serial(number), reason=reason,
            findings=[key(subject, "rod-class") for subject in subjects(place, number, *joints)], nonconformity=NCR,
            signatures=signatures(signed, reason, "Q01", "O01"),
        )  # fmt: skip
    for member in ("SS-L", "SS-R", "CSb", "SSb"):
        story.sign(
            place.at("2025-10-01", "07:10"), "piece", f"{place.serial(FIRST)} {member} 2", frame=place.serial(FIRST),
            member=member, heat="H32-113", attempt=2,
        )  # fmt: skip
    story.sign(
        place.at("2025-10-06", "15:30"), "customer", "C-05", name="Piet Sandelow", address="Chandlers Yard, Merrowby",
        note=f"letters of {place.day('2025-09-15')} and {place.day('2025-10-06')} unanswered",
    )  # fmt: skip


def _decoys(story: Story, place: Place) -> None:
    good = [
        subject
        for number, sleeves in IN_RIGHT.items()
        for joints in sleeves.values()
        for subject in subjects(place, number, *joints)
    ]
    held = [subject for number, joints in IN_WRONG.items() for subject in subjects(place, number, *joints)]
    story.never(I, good, "rod-class", f"the fill names {OLD} or {RIGHT}")
    story.never(I, [*held, *good], "sleeve-named", "every fill names its sleeve; root and tack say no filler")
    for number in (FIRST, SECOND):
        story.never(I, subjects(place, number, *span("F", 1, 14)), "rod-class", "fittings ask for this class")
    story.never(I, ["F9-A11"], "rod-class", "the lot is good")
