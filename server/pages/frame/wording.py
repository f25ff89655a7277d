"""How numbers, moments and verdicts are put into words on a page; the shop's own zone is for showing only."""

from datetime import UTC, datetime
from functools import lru_cache
from zoneinfo import ZoneInfo

_KEPT = 20_000
"""So many moments are kept as they are written; a page shows hundreds, most of them again and again."""
SHAPES = {"within": "○", "marginal": "◐", "outside": "■", "unknown": "◇", "not asked": "–"}


@lru_cache(maxsize=_KEPT)
def local_moment(moment_ms: int | None, zone: str) -> str:
    """Write a moment [ms, UTC] as the shop's wall clock shows it, `Tue 18 Mar 2025 13:22`."""
    if moment_ms is None:
        return "not recorded"
    return datetime.fromtimestamp(moment_ms / 1000, UTC).astimezone(ZoneInfo(zone)).strftime("%a %d %b %Y %H:%M")


def local_clock(moment_ms: int | None, zone: str) -> str:
    """Write only the time of day of a moment [ms, UTC], with seconds."""
    if moment_ms is None:
        return "–"
    return datetime.fromtimestamp(moment_ms / 1000, UTC).astimezone(ZoneInfo(zone)).strftime("%H:%M:%S")


def quantity(value: float | str | None, unit: str = "") -> str:
    """Write a value with its unit, `0.16 kJ/mm`, or say that there is none."""
    if value is None:
        return "not recorded"
    # A purity lives in its last digits: four of 99.995 % would be 100.
    digits = 6 if unit == "%" and isinstance(value, float) and value > 99.0 else 4
    number = f"{value:.{digits}g}" if isinstance(value, float) else str(value)
    return in_unit(number, unit)


def in_unit(number: str, unit: str) -> str:
    """Put a number and its unit together as the trade says it: a cup is `#8`, a colour `grade 3`."""
    return {"#": f"#{number}", "grade": f"grade {number}"}.get(unit, f"{number} {unit}").strip()


def allowed_range(low: float | None, high: float | None, unit: str = "", allowed: tuple[str, ...] = ()) -> str:
    """Write what a limit allows: `at most 20 ppm`, `30 to 50 A`, or the words allowed."""
    if allowed:
        return " or ".join(allowed)
    if low is None and high is None:
        return "no limit"
    if low is None:
        return f"at most {in_unit(f'{high:g}', unit)}"
    if high is None:
        return f"at least {in_unit(f'{low:g}', unit)}"
    return f"{low:g} to {in_unit(f'{high:g}', unit)}"
