"""I-06: two quarters of a seam welded over three times in an afternoon, without the second name."""

from demo_data.generator.frames import INSPECTED, RELEASED, SHIPPED
from demo_data.generator.incidents.pinning import pin_runs, subjects
from demo_data.generator.plan import Pin, Place, Plan, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import Story

I = "I-06"  # noqa: E741
DAY, NUMBER, JOINT = "2025-10-15", 149, "J10"
QUARTERS = ("q3", "q6")
_REPAIRS = (
    (2, "14:01:38", "T2 B", "FT-0203", "41", 3, "13:41"),
    (3, "14:24:12", "T2 B", "FT-0203", None, 3, "14:05"),
    (4, "14:52:46", None, "", None, 2, "14:31"),
)
_REBUILT = {
    "2025-10-20": ("J01", "J02"), "2025-10-21": ("J04", "J06"), "2025-10-22": ("J07", "J08", "J09", "J10"),
}  # fmt: skip
_LATER = {
    3: "2025-10-23", 4: "2025-10-24", 5: "2025-10-27", 6: "2025-10-28", INSPECTED: "2025-10-29", 8: "2025-10-30",
    9: "2025-10-31", RELEASED: "2025-11-03", SHIPPED: "2025-11-05",
}  # fmt: skip
_FOUND = {
    "repair-procedure": (2, 3), "repair-approved": (3, 4), "repair-count": (4,), "cool-time": (3, 4),
    "interpass": (3, 4), "sleeve-named": (4,), "inside-colour": (1, 2, 3, 4),
}  # fmt: skip
_STOP = ("repair-approved", "repair-count", "sleeve-named")


def plant(plan: Plan, place: Place) -> None:
    """Settle the day's arcs, the three repairs, and the frame built anew in overtime."""
    number = place.number(NUMBER)
    plan.frames.add(number)
    plan.quiet("B1", place.day(DAY))
    plan.sleeves.append(("FT-0203", "B1", place.at("2025-10-13", "07:44"), None))
    pin_runs(plan, place, DAY, NUMBER, "J07 08:20/08:34 J08 08:56/09:10 J09 10:18/10:34 J10 11:20/11:38")
    first = plan.pin(number, JOINT)
    first.inside, first.arc_s = (), 69.0
    first.values = {"root.arc_on": "68.0", "root.mean_current": "41.0", "root.volts": "10.0"}
    first.values |= {"fill.arc_on": "70.0", "fill.mean_current": "42.0", "fill.volts": "10.0"}
    for attempt, end, card, sleeve, interpass, _, removed in _REPAIRS:
        by = ("Q01",) if attempt == 2 else ()
        plan.remakes.append(
            Remake(number, JOINT, attempt, place.day(DAY), "R1", place.at(DAY, removed), "ground out, 39 mm", by,
                   pin=_repair(place, end, card, sleeve, interpass))
        )  # fmt: skip
    _rebuilt(plan, place)
    plan.told.append((I, lambda shop, story: _tell(shop, story, place)))


def _repair(place: Place, end: str, card: str | None, sleeve: str, interpass: str | None) -> Pin:
    settled = {
        "arc_on": "34.0", "mean_current": "41.0", "volts": "10.0", "cup": "10", "torch_flow": "9.0", "post_flow": "22",
        "interpass": interpass or "-",
    }  # fmt: skip
    off = place.at(DAY, end)
    return Pin(
        root=off, fill=off, tack=off, oxygen=(10, 10), inside=(), card=card, sleeve=sleeve, values=settled, arc_s=34.0,
        pre_purge=(9.0, "6.0"), quarters=QUARTERS,
    )  # fmt: skip


def _rebuilt(plan: Plan, place: Place) -> None:
    number = place.number(NUMBER)
    for stage, day in _LATER.items():
        plan.days[number, stage] = place.day(day)
    for day, joints in _REBUILT.items():
        plan.overtime.add((number, place.day(day)))
        for joint in joints:
            attempt = 5 if joint == JOINT else 2
            plan.remakes.append(
                Remake(number, joint, attempt, place.day(day), None, place.at("2025-10-16", "10:30"), "pieces scrapped",
                       ("Q01", "O01"), True, by="M01")
            )  # fmt: skip
    plan.overtime |= {(number, place.day("2025-10-23")), (number, place.day("2025-10-24"))}


def _tell(shop: Shop, story: Story, place: Place) -> None:
    del shop
    frame = place.serial(NUMBER)
    looks = ((1, "11:47", 4), *((attempt, end[:5], grade) for attempt, end, *_, grade, _ in _REPAIRS))
    for attempt, clock, grade in looks:
        named = {"attempt": attempt} if attempt > 1 else {}
        for quarter in QUARTERS:
            moment = place.at(DAY, clock) + (100_000 if attempt > 1 else 0)
            story.tell(
                moment, "TAB-A", "W01", "look", frame=frame, joint=JOINT, **named, quarters=[quarter], side="inside",
                zone="bead", grade=grade,
            )  # fmt: skip
    agreed = place.at(DAY, "13:35")
    _sign(story, agreed, f"D-{frame}-1", "repair", subjects(place, NUMBER, JOINT), "Agreed to one repair.", "Q01")
    scrapped = place.at("2025-10-16", "10:20")
    words = "Heated far too often; shell, chainstays and seat tube are scrapped and the frame is built anew."
    found = [key(f"{frame}/{JOINT}#{attempt}", q) for q, attempts in _FOUND.items() for attempt in attempts]
    story.sign(
        scrapped, "decision", f"D-{frame}-2", choice="scrap", frame=frame, findings=found, reason=words,
        signatures=signatures(scrapped, words, "Q01", "O01"),
    )  # fmt: skip
    for member in ("SH", "ST", "CO", "CS-L", "CS-R"):
        heat = "H64-09" if member in ("SH", "CO") else "H32-114"
        piece = f"{frame} {member} 2"
        story.sign(place.at("2025-10-17", "14:00"), "piece", piece, frame=frame, member=member, heat=heat, attempt=2)
    _answers(story, place)


def _sign(story: Story, moment: int, name: str, choice: str, found: list[str], words: str, *people: str) -> None:
    keys = [key(subject, "inside-colour") for subject in found]
    story.sign(
        moment, "decision", name, choice=choice, frame=found[0].partition("/")[0], findings=keys, reason=words,
        signatures=signatures(moment, words, *people),
    )  # fmt: skip


def _answers(story: Story, place: Place) -> None:
    for question, attempts in _FOUND.items():
        for attempt in attempts:
            verdict = "unknown" if question in ("interpass", "sleeve-named") else "outside"
            severity = "stop" if question in _STOP else "decide"
            story.find(I, subjects(place, NUMBER, JOINT, attempt=attempt)[0], question, severity, verdict)
    for quarter in QUARTERS:
        story.find(I, f"{place.serial(NUMBER)}/{JOINT}#4:{quarter}", "heat-sum", "note")
    every = [subjects(place, NUMBER, JOINT, attempt=attempt)[0] for attempt in (1, 2, 3, 4)]
    story.never(I, every, "purge-o2", "9 to 11 ppm")
    story.never(I, every[:1], "mean-current", "41 and 42 A are inside")
    story.never(I, every[:1], "interpass", "asked of one joint in four, before the fill")
    story.never(I, every[1:2], "repair-approved", "the first repair needs no second signature")
    story.never(I, every[1:2], "cool-time", "over two hours since the fill")
    story.never(I, subjects(place, NUMBER, "J09"), "*", "its own history is clean")
