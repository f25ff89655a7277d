"""Whether the gas on the lines of a pass was of a fill lot with a released certificate when it was connected."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import GasOn, PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="gas-lot-released",
    asks="Was the gas of a fill lot with a released certificate?",
    level="pass",
    severity=Severity.DECIDE,
    limit_from="certificate",
    causes=("C1", "C2", "C9"),
    why="The certificate is the only word on purity and dew point before the arc says otherwise.",
    do="Get the certificate of the fill lot, or take the cylinder off.",
    cannot_tell="A certificate speaks for the lot; one cylinder of it may still be bad, which only a bead shows.",
)
def gas_lot_released(me: Rule, on: PassOccasion) -> Verdict:
    known = False
    for gas in (on.torch, on.purge):
        if gas is not None and gas.lot_released is not None:
            known = True
            if not gas.lot_released:
                return _outside(me, on, gas)
    return me.within(on.subject, on.entry) if known else me.not_asked()


def _outside(me: Rule, on: PassOccasion, gas: GasOn) -> Verdict:
    said = f"Cylinder {gas.cylinder} on {gas.line} is of lot {gas.fill_lot}, whose certificate was not released."
    rests_on = (on.entry, gas.change_entry) if gas.change_entry else (on.entry,)
    return me.outside(on.subject, said, *rests_on, value=gas.fill_lot)
