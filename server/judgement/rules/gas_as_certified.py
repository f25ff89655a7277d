"""Whether the certificate of the gas on each line meets what the procedure asks of that line's gas."""

from typing import TypeAlias

from server.facts.judged import Severity, Verdict
from server.facts.limit import Limit
from server.facts.occasion_pass import GasOn, PassOccasion
from server.judgement.rule import Rule, rule

_Asked: TypeAlias = tuple[str, float | None, Limit, GasOn]
"""One figure a certificate is asked for: its words, what the certificate says, the limit, the gas."""


@rule(
    id="gas-as-certified",
    asks="Does the gas's certificate meet what the procedure asks of it?",
    level="pass",
    severity=Severity.DECIDE,
    limit_from="procedure",
    causes=("C1", "C2", "C11", "C26"),
    why="A cylinder can be connected and flow well and still hold a gas that was never good enough for titanium.",
    do="Take the cylinder off; weld on with one whose certificate meets the procedure.",
    cannot_tell="A certificate speaks for the lot when it was filled; one cylinder, and its last gas, may be worse.",
)
def gas_as_certified(me: Rule, on: PassOccasion) -> Verdict:
    asked = _asked(on, "torch", on.torch) + _asked(on, "purge", on.purge)
    said = [each for each in asked if each[1] is not None]
    for words, value, limit, gas in said:
        if value is not None and _beyond(value, limit):
            return _outside(me, on, f"{words} {value:g} {limit.unit}", value, limit, gas)
    for words, value, limit, gas in asked:
        if value is None and limit.plan.when != "never":
            missing = f"The certificate of the gas on {gas.line} does not say its {words}."
            return me.unknown(on.subject, missing, on.entry, source=limit.source)
    return me.within(on.subject, on.entry) if said else me.not_asked()


def _asked(on: PassOccasion, role: str, gas: GasOn | None) -> list[_Asked]:
    if gas is None or gas.fill_lot is None:
        return []
    limits = on.limits
    dew_point = limits.get(f"dew_point {role}") or limits.get("dew_point")
    purity = limits.get(f"gas_purity {role}") or limits.get("gas_purity")
    asked = [("dew point", gas.certificate_dew_c, dew_point, gas)] if dew_point is not None else []
    return [*asked, ("purity", gas.certificate_purity_percent, purity, gas)] if purity is not None else asked


def _outside(me: Rule, on: PassOccasion, found: str, value: float, limit: Limit, gas: GasOn) -> Verdict:
    said = f"Lot {gas.fill_lot} on {gas.line}: {found} on its certificate; {_range(limit)} is asked for."
    rests_on = (on.entry, gas.change_entry) if gas.change_entry else (on.entry,)
    met = {"unit": limit.unit, "low": limit.low, "high": limit.high, "source": limit.source}
    return me.outside(on.subject, said, *rests_on, value=value, **met)


def _beyond(value: float, limit: Limit) -> bool:
    low, high = limit.low, limit.high
    return (low is not None and value < low) or (high is not None and value > high)


def _range(limit: Limit) -> str:
    return f"at most {limit.high:g} {limit.unit}" if limit.high is not None else f"at least {limit.low:g} {limit.unit}"
