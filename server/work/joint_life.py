"""How long joints hold in the field: each from its shipment to a claim that names it, its way back, or today."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.claim import Claim
from server.occasions.tables import Tables
from server.record.reads import Reads
from server.statistics.count_interval import count_interval
from server.statistics.interval import Interval
from server.statistics.survival import SurvivalCurve, survival_of
from server.statistics.weibull import FAILURES_NEEDED, WeibullFit, weibull_of
from server.work.field_lives import FieldLives, Group, Span, field_lives
from server.work.known_shop import shop_now
from server.work.life_tally import Tally, length, lengths
from server.work.refusal import NotThere


class Rate(NamedTuple):
    """How often one group of joints was claimed: failures, joint-years, and the exact interval of the rate."""

    design: str
    joint: str
    joints: int
    failures: int
    years: float
    rate: Interval


@dataclass(frozen=True, slots=True)
class JointLife:
    """What the field tells of some joints: rates by joint, the curve, a fit where there is enough, what it cannot."""

    design: str
    joint: str
    designs: tuple[str, ...]
    rates: tuple[Rate, ...]
    together: Rate | None
    curve: SurvivalCurve | None
    fit: WeibullFit | None
    fit_refused: str
    left_out: tuple[tuple[str, str], ...]
    known_at: int


def joint_life(reads: Reads, design: str = "", joint: str = "") -> JointLife:
    """Answer for all joints, those of one design, or one joint of it; raises `NotThere` for what no drawing has."""
    tables, received_ms, position = shop_now(reads).tables, reads.last_received_ms(), reads.last_position()
    _known(tables, design, joint)

    def of_field(_: JointLife | None) -> JointLife:
        return _of_field(tables, design, joint, received_ms, position)

    # Of the same state the same is answered; another line makes another state.
    return tables.made_of.kept(f"joint life|{design}|{joint}", (tables.uses,), of_field)


def _of_field(tables: Tables, design: str, joint: str, received_ms: int, position: int) -> JointLife:
    every = field_lives(tables)
    until_ms = max(received_ms, tables.end_ms)
    claimed, left_out = _claimed(tables, every, until_ms)
    groups = {
        group: _tally(every, group, claimed.get(group, ()), until_ms)
        for group in every.out.keys() | every.ended.keys()
        if design in ("", group[0]) and joint in ("", group[1])
    }
    tallies = {group: tally for group, tally in groups.items() if tally.leaving}
    together = _together(tallies.values())
    fit, refused = _fit(together)
    rates = [_rate(*group, tally) for group, tally in tallies.items()]
    return JointLife(
        design=design,
        joint=joint,
        designs=tuple(sorted(tables.drawings)),
        rates=tuple(sorted(rates, key=lambda each: (-each.failures, each.design, each.joint))),
        together=_rate("", "", together) if together.leaving else None,
        curve=survival_of(*together.in_years()) if together.leaving else None,
        fit=fit,
        fit_refused=refused,
        left_out=tuple(left_out),
        known_at=position,
    )


def _known(tables: Tables, design: str, joint: str) -> None:
    if design and design not in tables.drawings:
        raise NotThere(f"design: {design!r} is no drawing of this shop; there are {', '.join(sorted(tables.drawings))}")
    if joint and (not design or joint not in tables.drawings[design].joints):
        raise NotThere(f"joint: {joint!r} is no joint of {design or 'every design'}; choose a design, then its joint")


class _Claimed(NamedTuple):
    """A joint's life that a claim ended: when it left, how long it was in use, whether it is counted as out."""

    left_ms: int
    used_until_ms: int
    ends_ms: int | None


def _claimed(
    tables: Tables, every: FieldLives, until_ms: int
) -> tuple[dict[Group, list[_Claimed]], list[tuple[str, str]]]:
    """The lives that claims ended, each by the first claim reported while it lasted; and the claims left out."""
    found: dict[Group, list[_Claimed]] = {}
    ended: set[tuple[str, str, int]] = set()
    left_out = []
    for claim in sorted(tables.registers.claims.values(), key=lambda each: each.reported):
        if not claim.joint:
            left_out.append((f"{claim.id}, {claim.serial}", "names no joint"))
        elif claim.serial not in tables.shipped:
            left_out.append((f"{claim.id}, {claim.serial}", "the frame has no shipment in the record"))
        elif of_frame := every.frames.get(claim.serial):
            for span in _lasting(of_frame.spans, claim, until_ms):
                if (claim.serial, claim.joint, span.left_ms) not in ended:
                    ended.add((claim.serial, claim.joint, span.left_ms))
                    # What is seen only once the frame is back was there when it came.
                    used_until_ms = min(claim.reported, span.ends_ms or claim.reported)
                    life = _Claimed(span.left_ms, used_until_ms, span.ends_ms)
                    found.setdefault((of_frame.design, claim.joint), []).append(life)
    return found, left_out


def _lasting(spans: Iterable[Span], claim: Claim, until_ms: int) -> Iterator[Span]:
    for span in spans:
        if claim.joint in span.joints and span.left_ms < claim.reported <= (span.remade_ms or until_ms):
            yield span


def _tally(every: FieldLives, group: Group, claimed: Iterable[_Claimed], until_ms: int) -> Tally:
    """The lives of one group, those still out until today; one that a claim ended counts to its report at most."""
    leaving = lengths(every.out.get(group, ()), until_ms)
    leaving.update(length(end_ms - left_ms) for left_ms, end_ms in every.ended.get(group, ()))
    ended: Counter[int] = Counter()
    for life in claimed:
        leaving[length((life.ends_ms or until_ms) - life.left_ms)] -= 1
        ended[length(life.used_until_ms - life.left_ms)] += 1
    return Tally(+(leaving + ended), ended)


def _together(tallies: Iterable[Tally]) -> Tally:
    leaving: Counter[int] = Counter()
    ended: Counter[int] = Counter()
    for tally in tallies:
        leaving.update(tally.leaving)
        ended.update(tally.ended)
    return Tally(leaving, ended)


def _rate(design: str, joint: str, tally: Tally) -> Rate:
    failures, years = tally.ended.total(), tally.years
    return Rate(design, joint, tally.leaving.total(), failures, years, count_interval(failures, years))


def _fit(tally: Tally) -> tuple[WeibullFit | None, str]:
    failures = tally.ended.total()
    if failures < FAILURES_NEEDED:
        return (
            None,
            f"failures so far: {failures}; a life curve is fitted from {FAILURES_NEEDED} on, so none is drawn here",
        )
    try:
        return weibull_of(*tally.in_years()), ""
    except ValueError as refused:
        return None, str(refused)
