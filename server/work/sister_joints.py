"""The same seam on other frames of the design: what was measured there, to see what was usual."""

from collections import defaultdict
from statistics import quantiles
from typing import NamedTuple

from server.facts.frame_papers import packets_of_design
from server.facts.measured import Measured
from server.facts.quantities import QUANTITIES
from server.facts.registers import Registers
from server.facts.welding import Pass
from server.record.reads import Reads
from server.work.standing_passes import standing_passes_of

_FEW = 3
SISTERS = 40
"""With how many frames a joint is compared at most: more do not make the picture clearer."""
_NOT_COMPARED = frozenset({"tungsten", "cup", "rod"})


class Measurement(NamedTuple):
    """One value of one pass, on which frame, in which run and attempt, corrections read into it."""

    frame: str
    run: str
    attempt: int
    value: float


class Compared(NamedTuple):
    """One quantity in one run: what it was here, and on the sister frames."""

    quantity: str
    run: str
    unit: str
    here: tuple[Measurement, ...]
    elsewhere: tuple[Measurement, ...]

    @property
    def words(self) -> str:
        """Name it in shop words."""
        return f"{QUANTITIES[self.quantity].words}, {self.run}, in {self.unit}"

    @property
    def differs(self) -> bool:
        """Tell whether the values are not all the same; a setting nobody changes needs no picture."""
        return len({each.value for each in (*self.here, *self.elsewhere)}) > 1

    @property
    def apart(self) -> float:
        """How far the farthest own value lies from the middle of the others, in widths of their middle half."""
        others = [each.value for each in self.elsewhere]
        if len(others) < _FEW:
            return 0.0
        low, middle, high = quantiles(others, n=4)
        return max(abs(each.value - middle) for each in self.here) / ((high - low) or abs(middle) or 1.0)

    @property
    def frames(self) -> int:
        """On how many sister frames it was measured."""
        return len({each.frame for each in self.elsewhere})


def sister_joints(reads: Reads, frame: str, joint: str) -> list[Compared]:
    """Compare what was measured on this seam with the same seam of the design's other frames, the most unlike first."""
    sisters = _nearest(reads.registers(), frame)
    found: dict[tuple[str, str], list[Measurement]] = defaultdict(list)
    for it, values in standing_passes_of(reads, sisters, joint):
        if it.joint == joint:
            for name, measured in values.items():
                found[it.run, name].append(_measurement(it, measured))
    compared = [_compared(name, run, frame, each) for (run, name), each in found.items() if name not in _NOT_COMPARED]
    return sorted((each for each in compared if each.here), key=lambda each: (-each.apart, each.run, each.quantity))


def _nearest(registers: Registers, frame: str) -> list[str]:
    """The frame among those of its design whose packets were issued nearest to its own."""
    packet = registers.packets[frame]
    line = [each.frame for each in packets_of_design(registers, packet.design)]
    first = max(0, min(line.index(frame) - SISTERS // 2, len(line) - SISTERS - 1))
    return line[first : first + SISTERS + 1]


def _measurement(it: Pass, measured: Measured) -> Measurement:
    return Measurement(it.frame, it.run, it.attempt, measured.value)


def _compared(name: str, run: str, frame: str, found: list[Measurement]) -> Compared:
    here = tuple(each for each in found if each.frame == frame)
    elsewhere = tuple(each for each in found if each.frame != frame)
    return Compared(name, run, QUANTITIES[name].unit, here, elsewhere)
