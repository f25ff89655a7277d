"""The sentences that say what a chart or an estimate cannot tell."""

from __future__ import annotations

from collections.abc import Sequence

ENOUGH_POINTS = 20
NOT_THE_JOINT = "A point inside the limits says the work is steady, not that the joint is sound."


def not_below(least: float | None, lower: Sequence[float | None]) -> tuple[str, ...]:
    """Say that the lower limit is left out because no reading can lie there; nothing where it stays."""
    if drawn_from(least, lower) == tuple(lower):
        return ()
    return (f"No reading can lie below {least:g}, so a lower limit there is not drawn; a fall shows in the CUSUM.",)


def drawn_from(least: float | None, lower: Sequence[float | None]) -> tuple[float | None, ...]:
    """Give the lower limits as they are, or none at all where one of them lies below the least that can be."""
    beneath = least is not None and any(limit is not None and limit < least for limit in lower)
    return (None,) * len(lower) if beneath else tuple(lower)


def few_points(count: int, enough: int = ENOUGH_POINTS) -> tuple[str, ...]:
    """A warning when what is shown rests on few points, or nothing."""
    if count >= enough:
        return ()
    return (f"This rests on {count} points; below {enough} it still moves with every new one.",)
