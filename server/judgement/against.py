"""A reading of a pass held against a limit of the procedure in force, with the doubt of what gave the reading."""

from math import isclose

from server.facts.figure import Figure
from server.facts.judged import Severity, Verdict, Word
from server.facts.limit import Limit
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.occasion_pass import PassOccasion
from server.judgement.asking import asked
from server.judgement.rule import Rule
from server.statistics.conformity import Conformity, conform

# A computed figure carries rounding of its own; a billionth is beyond any instrument.
DECIMALS = 9
# Bound once: reaching through an enum costs more than the comparison, and figures are compared by the million.
_WITHIN = Conformity.WITHIN
_INSIDE = Word.WITHIN
_new = tuple.__new__


def against(me: Rule, on: PassOccasion, name: str, severity: Severity | None = None) -> Verdict:
    """Hold the pass's own figure against the limit of that name; missing, it is unknown where the plan asked."""
    limit = on.limits.get(name)
    if limit is None:
        return me.not_asked()
    figure = on.figures.get(name)
    if figure is None:
        return missing(me, on, limit) if asked(limit, on) else me.not_asked()
    return compared(me, on.subject, limit, figure, on.entry, severity)


def compared(
    me: Rule, subject: str, limit: Limit, figure: Figure, entry: str, severity: Severity | None = None
) -> Verdict:
    """Hold one figure against one limit."""
    # A noun's own way to its fields takes three times as long as a plain look-up.
    limited = vars(limit)
    if limited["allowed"]:
        return _among(me, subject, limit, figure)
    value, u, _, _, stated = figure
    value = round(value, DECIMALS)
    low, high, unit, source = limited["low"], limited["high"], limited["unit"], limited["source"]
    said = conform(value, low, high, u)
    rests_on = (entry,) if stated == entry else (entry, stated)
    if said is _WITHIN:
        weight = me.severity
        told = (me.id, subject, _INSIDE, weight, "", value, unit, low, high, (), u, True, source, "", rests_on)
        return _new(Verdict, told)
    met = value, unit, low, high, (), u
    proved = said is not Conformity.OUTSIDE_NOT_PROVED
    message = _message(limit, figure, said)
    weight = severity or me.severity
    return Verdict(me.id, subject, Word(said.word), weight, message, *met, proved, source, me.caution, rests_on)


def missing(me: Rule, on: PassOccasion, limit: Limit) -> Verdict:
    """Say that a reading the plan asked for is not there."""
    plan = limit.plan.when if limit.plan.n is None else f"one joint in {limit.plan.n}"
    return me.unknown(
        on.subject,
        f"{words(limit.name)} was asked for ({plan}) and is not recorded; {bounds(limit)}.",
        on.entry,
        unit=limit.unit,
        low=limit.low,
        high=limit.high,
        source=limit.source,
    )


def words(name: str) -> str:
    """Give the shop words of a limit, with a capital."""
    said = LIMIT_KINDS[name].words if name in LIMIT_KINDS else name
    return said[:1].upper() + said[1:]


def bounds(limit: Limit) -> str:
    """Say what a limit allows: `30 to 50 A`, `at most 20 ppm`, `ceriated or lanthanated`."""
    if limit.allowed:
        return f"{' or '.join(limit.allowed)} {limit.unit}".rstrip() + " is allowed"
    if limit.low is None:
        return f"at most {limit.high:g} {limit.unit} is allowed"
    if limit.high is None:
        return f"at least {limit.low:g} {limit.unit} is asked"
    return f"{limit.low:g} to {limit.high:g} {limit.unit} is allowed"


def _message(limit: Limit, figure: Figure, said: Conformity) -> str:
    told = f"{words(limit.name)} {figure.value:.4g} {limit.unit}"
    told += " as set" if figure.how == "set" else ""
    if said is Conformity.UNKNOWN:
        by = figure.by or "what gave it"
        return f"{told}: inside, but how sure {by} is, nobody has on file; {bounds(limit)}."
    if said is Conformity.MARGINAL:
        return f"{told}: inside, but closer to the limit than the instrument can tell; {bounds(limit)}."
    tail = "" if said is Conformity.OUTSIDE else " Not proved: the instrument cannot tell."
    beyond = limit.beyond or LIMIT_KINDS[limit.name].beyond
    return f"{told}; {bounds(limit)}.{tail} {beyond}"


def _among(me: Rule, subject: str, limit: Limit, figure: Figure) -> Verdict:
    """A figure picked from a list is compared as it stands."""
    if any(isclose(figure.value, float(each)) for each in limit.allowed):
        return me.within(subject, figure.entry, value=figure.value)
    return me.outside(
        subject,
        f"{words(limit.name)} {figure.value:g} {limit.unit}; {bounds(limit)}. {LIMIT_KINDS[limit.name].beyond}",
        figure.entry,
        value=figure.value,
        unit=limit.unit,
        allowed=limit.allowed,
        source=limit.source,
    )
