"""Whether the limit card the welder was shown is of the revision in force on that day."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="revision-in-force",
    asks="Was the procedure shown to the welder the one in force?",
    level="pass",
    severity=Severity.NOTE,
    limit_from="record",
    causes=("C21",),
    why="Whoever works by an old paper meets the wrong limits without knowing it.",
    do="Let the tablet fetch its cards; the weld itself is judged by the revision in force, in the other findings.",
    cannot_tell="It knows which card was on the screen, not whether anybody read it.",
)
def revision_in_force(me: Rule, on: PassOccasion) -> Verdict:
    if on.in_force is None or on.card is None:
        return me.not_asked()
    if on.shown is None:
        said = f"The tablet named a limit card ({on.card[:12]}) that no procedure here ever gave."
        return me.unknown(on.subject, said, on.entry, source=on.in_force.called)
    if on.shown.procedure != on.in_force.name:
        # The wrong procedure is a question of its own where it matters: a repair under a production card.
        return me.not_asked()
    if on.shown.revision == on.in_force.revision:
        return me.within(on.subject, on.entry, value=on.shown.revision)
    said = f"The tablet showed {on.in_force.name} rev {on.shown.revision}; {on.in_force.called} was in force."
    return me.outside(on.subject, said, on.entry, value=on.shown.revision, source=on.in_force.called)
