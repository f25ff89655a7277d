"""The lines of a limit card, in the order of the work, with the doubt of the instruments that read them."""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from server.facts.equipment import Instrument, Uncertainty
from server.facts.limit import Limit
from server.facts.limit_card import CardLine
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.procedure import Procedure
from server.procedures.wording import limit_called

_Reads = Mapping[tuple[str, str], Sequence[Uncertainty]]


def card_lines(procedure: Procedure, joint_kind: str, instruments: Iterable[Instrument]) -> tuple[CardLine, ...]:
    """Every limit of the revision that holds for this kind of joint."""
    reads, order = _read_by(instruments), list(LIMIT_KINDS)
    held = [limit for limit in procedure.limits if not limit.joint_kinds or joint_kind in limit.joint_kinds]
    held.sort(key=lambda limit: order.index(limit.name))
    return tuple(_line(limit, _doubt(limit.name, reads)) for limit in held)


def _read_by(instruments: Iterable[Instrument]) -> _Reads:
    found: dict[tuple[str, str], list[Uncertainty]] = {}
    for instrument in instruments:
        for each in instrument.reads:
            found.setdefault((each.quantity, each.unit), []).append(each)
    return found


def doubt(name: str, instruments: Iterable[Instrument]) -> str | None:
    """The standard uncertainty a reading of this limit meets at worst: `3 %`, `0.15` or `sqrt(1, 5 %)`; none on file.

    >>> doubt("volts", [])
    """
    return _doubt(name, _read_by(instruments))


def _doubt(name: str, by_quantity: _Reads) -> str | None:
    kind = LIMIT_KINDS[name]
    reads = by_quantity.get((kind.reading or "", kind.unit), ())
    fixed, share = (max((getattr(u, part) for u in reads), default=0.0) for part in ("fixed", "share"))
    return doubt_words(fixed, share)


def doubt_words(fixed: float, share: float) -> str | None:
    """A standard uncertainty as a card carries it; nothing on file is none.

    >>> doubt_words(1.0, 0.05), doubt_words(0.0, 0.03), doubt_words(0.15, 0.0)
    ('sqrt(1, 5 %)', '3 %', '0.15')
    """
    percent = f"{decimal_text(round(share * 100, 9))} %"
    if fixed and share:
        return f"sqrt({decimal_text(fixed)}, {percent})"
    if fixed or share:
        return decimal_text(fixed) if fixed else percent
    return None


def decimal_text(value: float) -> str:
    """A number as decimal text, without an exponent.

    >>> decimal_text(0.00002), decimal_text(100.0)
    ('0.00002', '100')
    """
    return f"{Decimal(repr(value)).normalize():f}"


def _line(limit: Limit, uncertainty: str | None) -> CardLine:
    plan = limit.plan
    return CardLine(
        name=limit.name,
        words=limit_called(limit),
        unit=limit.unit,
        low=None if limit.low is None else decimal_text(limit.low),
        high=None if limit.high is None else decimal_text(limit.high),
        allowed=limit.allowed,
        side=limit.side,
        zone=limit.zone,
        runs=limit.runs,
        line=limit.line,
        when=plan.when,
        n=plan.n,
        not_tacks=plan.not_tacks,
        where=plan.where,
        picture=plan.picture,
        how=plan.how,
        moment=LIMIT_KINDS[limit.name].moment,
        uncertainty=uncertainty,
        source=limit.source,
        beyond=limit.beyond or LIMIT_KINDS[limit.name].beyond,
    )
