"""Whether the clocks tell in which order the things came that an attempt rests on."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import ClosePair, JointOccasion
from server.judgement.rule import Rule, rule

_MS_PER_S = 1000.0


@rule(
    id="order-provable",
    asks="Can it be told which came first?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C17",),
    why="Which cylinder, which cleaning and which look a pass rests on hangs on what came first.",
    do="Ask the two who logged it, write down which came first and why, and keep the tablets on the network.",
    cannot_tell="Covers, releases, beads and steps the drawing wants first tell this doubt at their own question.",
)
def order_provable(me: Rule, on: JointOccasion) -> Verdict:
    if on.close is None:
        return me.not_asked()
    if not on.close:
        return me.within(on.subject)
    nearest = min(on.close, key=_apart_s)
    more = f", and {len(on.close) - 1} more" if len(on.close) > 1 else ""
    said = (
        f"Order not provable: {nearest.first} and {nearest.second} lie {_apart_s(nearest):.1f} s apart, "
        f"their clocks are sure to {_sure_s(nearest):.1f} s{more}."
    )
    entries = dict.fromkeys(entry for each in on.close for entry in (each.first_entry, each.second_entry))
    return me.unknown(on.subject, said, *entries, value=nearest.first)


def _apart_s(pair: ClosePair) -> float:
    return abs(pair.second_at.at_ms - pair.first_at.at_ms) / _MS_PER_S


def _sure_s(pair: ClosePair) -> float:
    return (pair.first_at.error_ms + pair.second_at.error_ms) / _MS_PER_S
