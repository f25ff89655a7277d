"""Whether a repair was made under a card of the repair procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="repair-procedure",
    asks="Was the repair made under the repair procedure?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="procedure",
    causes=("C13", "C21"),
    why="Metal that has been melted before stands less heat; the repair procedure asks for more gas and more patience.",
    do="Decide about the repair by its values, which are judged by the repair procedure in force either way.",
    cannot_tell="It knows which card was on the screen.",
)
def repair_procedure(me: Rule, on: JointOccasion) -> Verdict:
    if on.repair is None:
        return me.not_asked()
    if on.procedure is None:
        return me.unknown(on.subject, "No repair procedure was in force for this kind of joint.", *_all(on))
    shown = [each for each in on.passes if each.card is not None]
    wrong = [each for each in shown if each.shown is None or each.shown.procedure != on.procedure.name]
    if not wrong:
        return me.within(on.subject, *_all(on)) if shown else me.not_asked()
    card = wrong[0].shown
    under = f"{card.procedure} rev {card.revision}" if card else "a card nobody here gave"
    said = f"Repaired under {under}; {on.procedure.called} was in force for repairs."
    return me.outside(on.subject, said, *(each.entry for each in wrong), value=under, source=on.procedure.called)


def _all(on: JointOccasion) -> tuple[str, ...]:
    return tuple(each.entry for each in on.passes)
