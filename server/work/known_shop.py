"""Gathers what judging knows of the shop at one record position, in a fixed number of questions."""

from collections.abc import Iterable

from server.facts.recorded import Recorded
from server.occasions.known import Known
from server.record.reads import Reads


def known_for_frames(reads: Reads, known_at: int) -> Known:
    """Give what the occasions of frames rest on, apart from the frames' own entries."""
    return Known(
        registers=reads.registers(known_at),
        shared=reads.shared_entries(known_at),
        clocks=reads.clock_pairs(known_at),
        photos=reads.photos(known_at),
    )


def known_with_passes(reads: Reads, known_at: int) -> Known:
    """Give what the occasions of gas lines, instruments, sleeves, welders and tablets rest on: every pass as well."""
    known = known_for_frames(reads, known_at)
    passes = tuple(_passes(reads.every_entry(known_at)))
    return Known(known.registers, known.shared, known.clocks, passes, known.photos)


def _passes(entries: Iterable[Recorded]) -> Iterable[Recorded]:
    return (each for each in entries if each.entry.kind == "pass")
