"""Tells beside one joint what was usual: the same seam on other frames of its design, without their serials."""

from statistics import median
from typing import Any

from server.record.reads import Reads
from server.work.sister_joints import Compared, sister_joints


def told_usual(reads: Reads, frame: str, joint: str) -> list[dict[str, Any]]:
    """Give each quantity that differs at all, the most unlike first; where no sister frame has it, nothing is told."""
    return [_usual(each) for each in sister_joints(reads, frame, joint) if each.elsewhere and each.differs]


def _usual(of_one: Compared) -> dict[str, Any]:
    others = [each.value for each in of_one.elsewhere]
    return {
        "what": of_one.words,
        "quantity": of_one.quantity,
        "run": of_one.run,
        "unit": of_one.unit,
        "here": [each.value for each in of_one.here],
        "least": min(others),
        "middle": median(others),
        "most": max(others),
        "passes": len(others),
        "frames": of_one.frames,
    }
