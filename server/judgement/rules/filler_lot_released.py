"""Whether the filler lot of a fill had a released certificate on that day."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="filler-lot-released",
    asks="Was the filler lot's certificate released on that day?",
    level="pass",
    severity=Severity.DECIDE,
    limit_from="certificate",
    causes=("C9",),
    why="A lot without a certificate is a rod of hearsay.",
    do="Get the certificate and release the lot, or decide about the joints it went into.",
    cannot_tell="A certificate speaks for the lot, not for a rod that strayed into it.",
)
def filler_lot_released(me: Rule, on: PassOccasion) -> Verdict:
    rod = on.rod
    if rod is None or rod.lot is None:
        return me.not_asked()
    if rod.lot_released:
        return me.within(on.subject, on.entry, value=rod.lot)
    if rod.lot_released is None:
        said = f"Sleeve {rod.sleeve} is of lot {rod.lot}, which is not on file."
        return me.unknown(on.subject, said, on.entry, value=rod.lot)
    said = f"Lot {rod.lot} of sleeve {rod.sleeve} had no released certificate on that day."
    return me.outside(on.subject, said, on.entry, value=rod.lot)
