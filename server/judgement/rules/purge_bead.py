"""The result of a test bead on a purge line."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import BeadOccasion
from server.judgement.beads import bead_result
from server.judgement.cautions import CYLINDER
from server.judgement.rule import Rule, rule


@rule(
    id="purge-bead",
    asks="Did the bead from this purge line come out good?",
    level="bead",
    severity=Severity.STOP,
    causes=("C2",),
    why="Nobody sees the purge gas work except in a bead; a bad one puts in doubt all since the last good one.",
    do="Stop the line, hold what it fed since the last good bead, change the cylinder, run a bead again.",
    cannot_tell="A bead tells that the gas is bad, not since when.",
    caution=CYLINDER,
)
def purge_bead(me: Rule, on: BeadOccasion) -> Verdict | tuple[()]:
    return bead_result(me, on) if on.purge else ()
