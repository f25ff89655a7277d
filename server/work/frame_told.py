"""What is told of a frame that used a thing: its joints, when they were welded, who has it; read once for a state."""

from collections.abc import Sequence
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_things import FrameRow, of_bits
from server.work.who_has_it import Gone, gone

_KEPT = 20_000
"""So many rows are kept as they were told; one takes a few hundred bytes."""


class FrameTold(NamedTuple):
    """One frame: its joints with their attempts, in the order of their first passes; when the first was welded and when
    the frame was sent [ms, UTC], and who has it."""

    frame: str
    joints: tuple[str, ...]
    welded_ms: int
    customer: str
    shipped_ms: int | None


class _Known(NamedTuple):
    """What was told of a row, and the passes it was read from."""

    uses: Sequence[Use]
    told: FrameTold


def frame_told(tables: Tables, row: FrameRow) -> FrameTold:
    """Tell of a frame; where neither its passes nor the papers changed, what was told before."""
    registers, uses = tables.registers, tables.uses.by_frame[row.frame]
    papers = registers.shipments, registers.ownerships, registers.customers
    kept: dict[tuple[str, int], _Known] = tables.made_of.kept("frames told", papers, lambda _: {})
    known = kept.get((row.frame, row.passes))
    if known is None or known.uses is not uses:
        if len(kept) >= _KEPT:
            kept.clear()
        known = kept[row.frame, row.passes] = _Known(uses, _told(row, uses, gone(registers, row.frame)))
    return known.told


def _told(row: FrameRow, uses: Sequence[Use], to: Gone) -> FrameTold:
    joints = dict.fromkeys(f"{use.joint}#{use.attempt}" for use in of_bits(uses, row.passes))
    return FrameTold(row.frame, tuple(joints), row.first_ms, to.customer, to.shipped_ms)
