"""The result of a test bead on a torch line."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import BeadOccasion
from server.judgement.beads import bead_result
from server.judgement.cautions import CYLINDER
from server.judgement.rule import Rule, rule


@rule(
    id="torch-bead",
    asks="Did the bead from this torch line come out good?",
    level="bead",
    severity=Severity.STOP,
    causes=("C1", "C6"),
    why="The torch bead is the first arc of the shift: it tells of cylinder, hose, cup and lens at once.",
    do="Stop the line, hold what it welded since the last good bead, find out which of them it was.",
    cannot_tell="A bead tells that the gas is bad, not since when, and not which part of the way to the arc.",
    caution=CYLINDER,
)
def torch_bead(me: Rule, on: BeadOccasion) -> Verdict | tuple[()]:
    return () if on.purge else bead_result(me, on)
