"""Finds what keeps frames, or waits to be read, among all findings that stand, and reads only that."""

from collections.abc import Container, Iterator
from itertools import chain

from server.facts.registers import Registers
from server.judgement.matters import Matter, matters_among, may_wait
from server.record.findings_short import ShortFinding
from server.record.reads import Reads


def keeping(reads: Reads, registers: Registers, frames: Container[str | None] | None = None) -> list[Matter]:
    """Give everything that keeps a frame, of all or of some frames; what is decided stands in its frame's history."""
    groups = reads.findings_short()
    gating = chain.from_iterable(found.values() for (_, gates), found in groups.items() if gates)
    wanted = (each for each in gating if frames is None or each.frame in frames)
    return _in_full(reads, registers, wanted)


def waiting_on(reads: Reads, registers: Registers, questions: Container[str]) -> list[Matter]:
    """Give everything that stands on some questions and is not decided, whether it keeps a frame or not."""
    groups = reads.findings_short()
    asked = chain.from_iterable(found.values() for (question, _), found in groups.items() if question in questions)
    return _in_full(reads, registers, asked)


def _in_full(reads: Reads, registers: Registers, short: Iterator[ShortFinding]) -> list[Matter]:
    numbers = [each.number for each in short if may_wait(each.key, each.digest, registers)]
    return matters_among(reads.findings_at(numbers), registers)
