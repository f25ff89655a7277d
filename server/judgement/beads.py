"""What a test bead says of its gas line."""

from server.facts.judged import Verdict
from server.facts.occasion_line import BeadOccasion
from server.judgement.colours import GRADES
from server.judgement.rule import Rule


def bead_result(me: Rule, on: BeadOccasion) -> Verdict:
    """Give the verdict on one bead; its result decides, its colour is told."""
    if on.result == "good":
        return me.within(on.subject, on.entry, value=_grade(on))
    if on.result == "waiting":
        return me.unknown(on.subject, f"The bead on {on.line} was run; its result is not entered yet.", on.entry)
    colour = f", {GRADES[on.grade]}" if on.grade is not None else ""
    gas = f" with cylinder {on.cylinder}" if on.cylinder else ""
    said = f"The bead on {on.line}{gas} failed{colour}."
    return me.outside(on.subject, said, on.entry, value=_grade(on))


def _grade(on: BeadOccasion) -> float | None:
    return None if on.grade is None else float(on.grade)
