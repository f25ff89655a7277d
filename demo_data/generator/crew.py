"""Who welds what: each bench has its lead, a third welder is called in now and then, an apprentice grows into it."""

from datetime import date

from demo_data.generator.frames import Frame
from demo_data.generator.joints import BRIDGES, seam

CALLED = tuple(
    date.fromisoformat(day)
    for day in (
        "2025-02-11", "2025-02-12", "2025-04-29", "2025-04-30", "2025-08-05",
        "2025-08-06", "2025-11-11", "2025-11-12", "2026-01-13", "2026-01-14",
    )
)  # fmt: skip
"""Days on which W03 covers the second bench."""
FITTINGS_FROM, STRUCTURAL_FROM = date(2025, 9, 15), date(2026, 2, 2)
"""Since when W04 welds fittings, and joints."""
_APPRENTICE = {0: ("J05", "J06", "J07", "J08"), 2: ("J02",)}
_LAST_FITTINGS = {"F11", "F12", "F13", "F14", "H05", "H06"}


def welder_of(frame: Frame, joint: str, day: date, barred: bool = False) -> str:
    """Give the welder of a joint on a day; `barred` says the apprentice may not weld joints just then."""
    if frame.bench == "B2":
        return _second_bench(frame, joint, day)
    if not seam(joint).structural:
        return "W04" if day >= FITTINGS_FROM else "W01"
    slot = (frame.number - 1) % 4
    return "W04" if day >= STRUCTURAL_FROM and joint in _APPRENTICE[slot] and not barred else "W01"


def _second_bench(frame: Frame, joint: str, day: date) -> str:
    if frame.design == "WHB" and joint in BRIDGES:
        return "W01"
    if day not in CALLED:
        return "W02"
    return "W03" if seam(joint).structural or joint in _LAST_FITTINGS else "W02"


def procedure_letters(day: date) -> dict[str, str]:
    """Give the revision of each procedure in force that day."""
    newer = day >= REVISED
    return {"T1": "C" if newer else "B", "T2": "B" if newer else "A", "T3": "A", "R1": "A"}


REVISED = date(2025, 5, 5)
"""The day the tighter revisions came into force."""
