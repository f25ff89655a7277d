"""I-04 as told: the weekly checks nobody acted on, the calibration that failed, two chairs called back."""

from datetime import date

from demo_data.generator.devices import iso
from demo_data.generator.frames import Frame
from demo_data.generator.incidents.i04_wetted_cell import (
    BACK,
    CHAIRS,
    CHECKS,
    FAILED,
    MISSED_CHECK,
    WETTED,
    I,
    at_other_bench,
    in_doubt,
    meter,
    over,
)  # fmt: skip
from demo_data.generator.joints import seam
from demo_data.generator.plan import Place
from demo_data.generator.shop import Shop
from demo_data.generator.signing import key, signatures
from demo_data.generator.story import KeyOf, Story

NCR, CN = "NCR-25-019", "CN-25-03"


def tell(shop: Shop, story: Story, place: Place) -> None:
    """Write what the incident adds, and what has to be found."""
    for moment, analyser in ((place.at(FAILED, "09:46"), "PA-3"), (place.at("2025-10-03", "11:06"), "PA-2")):
        story.tell(moment, "TAB-B", "W02", "check", check="air", subject=analyser, result="good")
    _narrowed(story, place)
    _called_back(shop, story, place)
    _answers(story, place)


def _narrowed(story: Story, place: Place) -> None:
    failed = f"PA-2 {iso(place.at(FAILED, '07:20'))}"
    checks = [h for h in story.happenings if h.fields.get("check") == "cross"]
    good = next((h for h in checks if h.at == place.at("2025-08-22", "17:05")), None)
    signed = place.at("2025-10-02", "15:20")
    if good is None:
        return
    reason = "On that Friday the two meters showed 9 and 8 ppm on the same gas; what was read before it stands."
    story.sign(
        signed, "narrowing", f"N-{NCR}-1", check=failed, by="cross-check", fact=good, reason=reason,
        signatures=signatures(signed, reason, "Q01", "O01"),
    )  # fmt: skip
    reason = "As found, the true value is twice the shown one plus twelve; only the two chairs come out over the limit."
    story.sign(
        signed + 60_000, "narrowing", f"N-{NCR}-2", check=failed, by="as-found curve", fact=failed, reason=reason,
        signatures=signatures(signed + 60_000, reason, "Q01", "O01"),
    )  # fmt: skip
    bad = [h for h in checks if h.fields["result"] == "failed" and h.at < signed]
    reason = "Written down and not acted on; from the sixth of October a failed cross-check opens a set of its own."
    story.sign(
        signed + 120_000, "decision", f"D-{NCR}-1", choice="accept", reason=reason, nonconformity=NCR,
        findings=[KeyOf("PA-2", h, question) for h in bad for question in ("cross-check", "cross-check-acted-on")],
        signatures=signatures(signed + 120_000, reason, "Q01"),
    )  # fmt: skip
    story.sign(
        place.at(FAILED, "08:10"), "nonconformity", NCR, title="the analyser of booth 2 reads too low",
        containment="Spare analyser hung at booth 2; the cell goes out for renewal.", cause="the cell was wetted",
        action="A failed cross-check puts in doubt what was read.",
        signatures=signatures(place.at(FAILED, "08:10"), "Found wrong at calibration.", "Q01"),
    )  # fmt: skip


def _called_back(shop: Shop, story: Story, place: Place) -> None:
    reason = "Insides at most one step of straw, penetrant and hardness good; nothing points to harm."
    signed = place.at("2025-10-17", "14:30")
    story.sign(
        signed, "concession", CN, question="purge-o2", frames=[place.serial(number) for number in CHAIRS],
        count=len(over(place)), reason=reason, signatures=signatures(signed, reason, "Q01", "O01"),
    )  # fmt: skip
    for number, joints in CHAIRS.items():
        frame = shop.frames[place.number(number)]
        _looked_at(story, place, frame, number)
        found = [
            key(f"{frame.serial}/{joint}#1", question)
            for joint in joints
            for question in ("purge-o2", "held-by-failed-check")
        ]
        story.sign(
            signed + number * 1000, "decision", f"D-{CN}-{frame.serial}", choice="use as is", frame=frame.serial,
            findings=found, concession=CN, reason=reason, nonconformity=NCR,
            signatures=signatures(signed + number * 1000, reason, "Q01", "O01"),
        )  # fmt: skip


def _looked_at(story: Story, place: Place, frame: Frame, number: int) -> None:
    story.tell(place.at(BACK[number], "10:40"), "TAB-Q", "F01", "stage", frame=frame.serial, stage="returned")
    moment = place.at("2025-10-16", f"{8 + number % 3:02d}:10")
    for step, joint in enumerate(joint for joint in CHAIRS[number] if seam(joint).inside != "N"):
        story.tell(
            moment + step * 240_000, "TAB-Q", "Q01", "look", frame=frame.serial, joint=joint, role="quality lead",
            side="inside", zone="bead", grade=step % 2, moment="after finishing",
        )  # fmt: skip
    released = place.at("2025-10-20", "10:30")
    story.tell(released, "TAB-Q", "Q01", "stage", frame=frame.serial, stage="released")
    story.tell(place.at("2025-10-20", "13:40"), "TAB-Q", "F01", "stage", frame=frame.serial, stage="shipped")


def _answers(story: Story, place: Place) -> None:
    find, never = story.find, story.never
    find(I, meter(place, FAILED, "07:20"), "instrument-calibrated", "stop")
    for subject in over(place):
        find(I, subject, "purge-o2", "stop")
        find(I, subject, "held-by-failed-check", "stop")
    find(I, f"PA-2@{place.day(WETTED)}", "reading-possible", "decide")
    for day, (one, two) in CHECKS.items():
        if one - two > 3:
            find(I, meter(place, day), "cross-check", "decide")
            find(I, meter(place, day), "cross-check-acted-on", "decide")
    find(I, f"PA-2@{place.day(MISSED_CHECK)}", "cross-check-due", "note", "unknown")
    # Today a failed cross-check opens a set of its own, back to the last good one.
    later = [in_doubt(place.day(WETTED), place, until=place.day("2025-09-26"))]
    for subject in [s for pair in later for part in pair for s in _named(part) if s not in set(over(place))]:
        find(I, subject, "held-by-failed-check", "stop", book="today")
    joints, fittings = in_doubt(date(2025, 7, 2), place)
    rest = [s for s in _named(joints) if s not in set(over(place))]
    never(I, rest, "purge-o2", "true oxygen at most 18, or judged before the cell was wetted")
    never(I, [*rest, *_named(fittings)], "held-by-failed-check", "cleared by the signed narrowings")
    never(I, _named(fittings), "purge-o2", "fittings allow 50; at most 40 true")
    others = [f"MT-{number:04d}/*" for number in at_other_bench(place)]
    never(I, others, "instrument-calibrated", "booth 1 used the other meter")
    never(I, ["PA-1@*"], "instrument-calibrated", "in tolerance")
    never(I, [meter(place, "2025-08-22")], "cross-check", "9 and 8: in tolerance")


def _named(frames: dict[int, list[str]]) -> list[str]:
    return [f"MT-{number:04d}/{joint}#1" for number, joints in frames.items() for joint in joints]
