"""Whether the certificate of the gas on each line meets what the procedure asks of that line's gas."""

from collections.abc import Iterator
from typing import NamedTuple

from server.facts.judged import Severity, Verdict
from server.facts.limit import Limit
from server.facts.occasion_pass import GasOn, PassOccasion
from server.judgement.rule import Rule, rule


class _Asked(NamedTuple):
    """One figure a certificate is asked for: its words, what the certificate says, the limit, the gas."""

    words: str
    value: float | None
    limit: Limit
    gas: GasOn


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
    asked = [*_asked(on, "torch", on.torch), *_asked(on, "purge", on.purge)]
    worst = next((each for each in asked if _beyond(each)), None)
    if worst is not None and worst.value is not None:
        limit, gas = worst.limit, worst.gas
        said = f"Lot {gas.fill_lot} on {gas.line}: {worst.words} {worst.value:g} {limit.unit} on its certificate; "
        said += f"{_range(limit)} is asked for."
        rests = (gas.change_entry,) if gas.change_entry else ()
        return me.outside(
            on.subject,
            said,
            on.entry,
            *rests,
            value=worst.value,
            unit=limit.unit,
            low=limit.low,
            high=limit.high,
            source=limit.source,
        )
    missing = next((each for each in asked if each.value is None and each.limit.plan.when != "never"), None)
    if missing is not None:
        said = f"The certificate of the gas on {missing.gas.line} does not say its {missing.words}."
        return me.unknown(on.subject, said, on.entry, source=missing.limit.source)
    if all(each.value is None for each in asked):
        return me.not_asked()
    return me.within(on.subject, on.entry)


def _asked(on: PassOccasion, role: str, gas: GasOn | None) -> Iterator[_Asked]:
    if gas is None or gas.fill_lot is None:
        return
    for name, words, value in (
        ("dew_point", "dew point", gas.certificate_dew_c),
        ("gas_purity", "purity", gas.certificate_purity_percent),
    ):
        limit = on.limits.get(f"{name} {role}") or on.limits.get(name)
        if limit is not None:
            yield _Asked(words, value, limit, gas)


def _beyond(asked: _Asked) -> bool:
    low, high, value = asked.limit.low, asked.limit.high, asked.value
    return value is not None and ((low is not None and value < low) or (high is not None and value > high))


def _range(limit: Limit) -> str:
    return f"at most {limit.high:g} {limit.unit}" if limit.high is not None else f"at least {limit.low:g} {limit.unit}"
