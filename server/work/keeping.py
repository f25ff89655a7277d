"""Finds what keeps frames among all findings that stand, and reads only that."""

from collections.abc import Set

from server.facts.registers import Registers
from server.judgement.matters import Matter
from server.record.reads import Reads
from server.work.short_matters import ShortMatters


def keeping(reads: Reads, registers: Registers, frames: Set[str] | None = None) -> list[Matter]:
    """Give everything that keeps a frame, of all or of some frames; what is decided stands in its frame's history."""
    short = ShortMatters(reads, registers)
    return short.in_full(short.keeping(frames))
