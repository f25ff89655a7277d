"""The sentences that say what a chart or an estimate cannot tell."""

from __future__ import annotations

ENOUGH_POINTS = 20
NOT_THE_JOINT = "A point inside the limits says the work is steady, not that the joint is sound."


def few_points(count: int, enough: int = ENOUGH_POINTS) -> tuple[str, ...]:
    """A warning when what is shown rests on few points, or nothing."""
    if count >= enough:
        return ()
    return (f"This rests on {count} points; below {enough} it still moves with every new one.",)
