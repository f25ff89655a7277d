"""I-04: the second bench's analyser reads too low for five weeks; two chairs met a split hose."""

from datetime import date

from demo_data.generator.days import DAY, WORKING_DAYS, show
from demo_data.generator.frames import all_frames
from demo_data.generator.incidents.pinning import span
from demo_data.generator.joints import STAGES
from demo_data.generator.plan import Place, Plan

I = "I-04"  # noqa: E741
WETTED, SPLIT, FAILED = "2025-08-25", ("2025-09-08", "2025-09-10"), "2025-09-30"
CHAIRS = {128: [*span("K", 5, 10), *span("K", 13, 16)], 130: [*span("K", 1, 4), "K11", "K12"]}
BACK = {128: "2025-10-13", 130: "2025-10-15"}
FIRST_FITTED = 118
CHECKS = {
    "2025-08-22": (9, 8), "2025-09-05": (12, 0), "2025-09-12": (10, 0), "2025-09-19": (11, 0), "2025-09-26": (12, 0),
}  # fmt: skip
MISSED_CHECK = "2025-08-29"


def plant(plan: Plan, place: Place) -> None:
    """Settle what the gas was, what the meter made of it, and what the cross-checks showed."""
    at, day = place.at, place.day
    plan.facts["wetted"] = (at(WETTED, "06:00"), at(FAILED, "07:20"))
    plan.facts["spare analyser"] = (at(FAILED, "09:40"), at("2025-10-03", "11:00"))
    plan.facts["begin", "B2", day(FAILED)] = at(FAILED, "09:52")
    plan.skipped.add(("air check", ("B2", day(FAILED))))
    for split in (day(SPLIT[0]), day(SPLIT[0]) + DAY, day(SPLIT[1])):
        plan.true_oxygen["B2-P", split] = (34, 50, 34, 40)
    for checked, shown in CHECKS.items():
        plan.facts["cross", day(checked)] = shown
    plan.skipped.add(("cross", day(MISSED_CHECK)))
    plan.pin(place.number(FIRST_FITTED), "H01").oxygen = (0,)
    for frames in in_doubt(date(2025, 7, 2), place):
        plan.frames |= set(frames)
    plan.quiet("B2", *(d for d in WORKING_DAYS if date(2025, 7, 2) <= d <= day(FAILED)))
    again = plan.facts.setdefault("shipped again", [])
    again += [(day("2025-10-20"), place.serial(number), place.number(number)) for number in CHAIRS]


def in_doubt(
    since: date, place: Place, until: date | None = None
) -> tuple[dict[int, list[str]], dict[int, list[str]]]:
    """Give the joints, and the fittings, welded at the second bench from a day on until the meter was found wrong."""
    until = until or place.day("2025-09-29")
    joints: dict[int, list[str]] = {}
    fittings: dict[int, list[str]] = {}
    for frame in all_frames(set(), {}).values():
        for stage, names in enumerate(STAGES[frame.design]):
            if frame.bench == "B2" and since <= frame.days[stage] <= until:
                (fittings if stage == 4 else joints).setdefault(frame.number, []).extend(names)
    return joints, fittings


def at_other_bench(place: Place) -> list[int]:
    """Give the frames welded at the first bench meanwhile."""
    first, last = date(2025, 7, 2), place.day(FAILED)
    frames = all_frames(set(), {}).values()
    return [f.number for f in frames if f.bench == "B1" and any(first <= day <= last for day in f.days[:5])]


def over(place: Place) -> list[str]:
    """Name the joints that were over the limit all the same."""
    return [f"{place.serial(number)}/{joint}#1" for number, joints in CHAIRS.items() for joint in joints]


def meter(place: Place, day: str, clock: str = "17:05") -> str:
    """Name the meter at a moment, as the answer key does."""
    return f"PA-2@{show(place.at(day, clock))}"
