"""Whether the gas on the lines of a pass was of a fill lot with a released certificate when it was connected."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
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
    known = [gas for gas in (on.torch, on.purge) if gas is not None and gas.lot_released is not None]
    bad = next((gas for gas in known if not gas.lot_released), None)
    if bad is not None:
        said = f"Cylinder {bad.cylinder} on {bad.line} is of lot {bad.fill_lot}, whose certificate was not released."
        return me.outside(on.subject, said, on.entry, *_entry(bad.change_entry), value=bad.fill_lot)
    if not known:
        return me.not_asked()
    return me.within(on.subject, on.entry)


def _entry(change: str | None) -> tuple[str, ...]:
    return (change,) if change else ()
