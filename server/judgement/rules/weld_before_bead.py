"""Whether a pass was made after a cylinder change, or at the start of a shift, before the bead that was due."""

from server.facts.came_before import came_before
from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_pass import GasOn, PassOccasion
from server.judgement.badness import badness
from server.judgement.cautions import CYLINDER
from server.judgement.rule import Rule, rule


@rule(
    id="weld-before-bead",
    asks="Was anything welded between a cylinder change and its bead?",
    level="pass",
    severity=Severity.NOTE,
    limit_from="acceptance",
    causes=("C1", "C2"),
    why="Until the bead is seen, nobody knows what comes out of the line; a good bead afterwards mends the doubt.",
    do="Run the bead before the next arc. If it comes out bad, hold what was welded since the change.",
    cannot_tell="A good bead speaks for the gas at the bead, not for the minute in which the line was still flushing.",
    caution=CYLINDER,
)
def weld_before_bead(me: Rule, on: PassOccasion) -> Verdict:
    of_torch, of_purge = _one_line(me, on, on.torch), _one_line(me, on, on.purge)
    if of_torch is None or of_purge is None:
        return of_torch or of_purge or me.not_asked()
    return of_torch if of_purge.word is Word.WITHIN else max(of_torch, of_purge, key=badness)


def _one_line(me: Rule, on: PassOccasion, gas: GasOn | None) -> Verdict | None:
    if gas is None:
        return None
    if gas.settled_by is not None and gas.bead_due_since is None:
        told = came_before(gas.settled_by, on.ended)
        return me.within(on.subject, on.entry) if told else _unprovable(me, on, gas)
    if gas.bead_due_since is None or gas.next_bead is None:
        return None
    if came_before(on.ended, gas.next_bead) is None:
        return _unprovable(me, on, gas)
    severity, then = _severity(gas)
    rests_on = [entry for entry in (on.entry, gas.change_entry, gas.next_bead_entry) if entry]
    said = f"Welded on {gas.line} with cylinder {gas.cylinder} before the bead that was due; {then}."
    return me.outside(on.subject, said, *rests_on, value=gas.line, severity=severity)


def _unprovable(me: Rule, on: PassOccasion, gas: GasOn) -> Verdict:
    said = f"Order not provable: pass and bead on {gas.line} lie closer than their clocks can tell."
    return me.unknown(on.subject, said, on.entry, value=gas.line)


def _severity(gas: GasOn) -> tuple[Severity, str]:
    if gas.next_bead_good:
        return Severity.NOTE, "the bead came out good"
    if gas.next_bead_good is None:
        return Severity.DECIDE, "the bead's result is still waiting"
    return Severity.STOP, "the bead came out bad"
