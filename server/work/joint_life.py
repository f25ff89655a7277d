"""How long joints hold in the field: each joint's life from its shipment to a claim that names it, or to today."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.claim import Claim
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.record.reads import Reads
from server.statistics.count_interval import count_interval
from server.statistics.interval import Interval
from server.statistics.survival import SurvivalCurve, kaplan_meier
from server.statistics.weibull import FAILURES_NEEDED, WeibullFit, weibull_fit
from server.work.known_shop import shop_now
from server.work.refusal import NotThere

_YEAR_MS = 365.25 * 86_400_000
_LEAST_YEARS = 0.001


class Life(NamedTuple):
    """One attempt at a joint in the field: how long [years], and the claim that ended it, where one did."""

    frame: str
    design: str
    joint: str
    years: float
    claim: str


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
    position = reads.last_position()
    tables = shop_now(reads).tables
    _known(tables, design, joint)
    claims, left_out = _claims(tables)
    until_ms = max(reads.last_received_ms(), tables.end_ms)
    every = [each for each in _lives(tables, claims, until_ms) if _is_of(each, design, joint)]
    ends = [bool(each.claim) for each in every]
    fit, refused = _fit(every)
    return JointLife(
        design=design,
        joint=joint,
        designs=tuple(sorted(tables.drawings)),
        rates=tuple(sorted(_rates(every), key=lambda each: (-each.failures, each.design, each.joint))),
        together=_rate("", "", every) if every else None,
        curve=kaplan_meier([each.years for each in every], ends) if every else None,
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


def _claims(tables: Tables) -> tuple[dict[tuple[str, str], list[Claim]], list[tuple[str, str]]]:
    found: dict[tuple[str, str], list[Claim]] = {}
    left_out = []
    for claim in sorted(tables.registers.claims.values(), key=lambda each: each.reported):
        if not claim.joint:
            left_out.append((f"{claim.id}, {claim.serial}", "names no joint"))
        elif claim.serial not in tables.shipped:
            left_out.append((f"{claim.id}, {claim.serial}", "the frame has no shipment in the record"))
        else:
            found.setdefault((claim.serial, claim.joint), []).append(claim)
    return found, left_out


def _lives(tables: Tables, claims: Mapping[tuple[str, str], Sequence[Claim]], until_ms: int) -> Iterator[Life]:
    """Each attempt's life begins with the first shipment after its last pass; the next attempt's first pass ends it."""
    sent: dict[str, list[int]] = {}
    for each in tables.registers.shipments.values():
        sent.setdefault(each.frame, []).append(each.at)
    for (frame, joint), attempts in _attempts(tables.uses.all).items():
        ends = [attempt[0].at.at_ms for attempt in attempts[1:]] + [until_ms]
        for attempt, end_ms in zip(attempts, ends, strict=True):
            left = min((at_ms for at_ms in sent.get(frame, ()) if at_ms > attempt[-1].at.at_ms), default=end_ms)
            if left < end_ms:
                yield _life(tables, (frame, joint), (left, end_ms), claims.get((frame, joint), ()))


def _life(tables: Tables, of: tuple[str, str], span_ms: tuple[int, int], claims: Sequence[Claim]) -> Life:
    left, end_ms = span_ms
    claim = next((each for each in claims if left < each.reported <= end_ms), None)
    years = round(((claim.reported if claim else end_ms) - left) / _YEAR_MS, 3)
    design = tables.packet_of[of[0]].design if of[0] in tables.packet_of else ""
    return Life(*of[:1], design, of[1], max(years, _LEAST_YEARS), claim.id if claim else "")


def _attempts(uses: Iterable[Use]) -> dict[tuple[str, str], list[list[Use]]]:
    found: dict[tuple[str, str], dict[int, list[Use]]] = {}
    for use in uses:
        found.setdefault((use.frame, use.joint), {}).setdefault(use.attempt, []).append(use)
    return {key: [attempts[number] for number in sorted(attempts)] for key, attempts in found.items()}


def _is_of(life: Life, design: str, joint: str) -> bool:
    return (not design or life.design == design) and (not joint or life.joint == joint)


def _rates(lives: Iterable[Life]) -> Iterator[Rate]:
    groups: dict[tuple[str, str], list[Life]] = {}
    for each in lives:
        groups.setdefault((each.design, each.joint), []).append(each)
    return (_rate(*group, of_group) for group, of_group in groups.items())


def _rate(design: str, joint: str, lives: Sequence[Life]) -> Rate:
    failures, years = sum(bool(each.claim) for each in lives), sum(each.years for each in lives)
    return Rate(design, joint, len(lives), failures, years, count_interval(failures, years))


def _fit(lives: Sequence[Life]) -> tuple[WeibullFit | None, str]:
    failures = sum(bool(each.claim) for each in lives)
    if failures < FAILURES_NEEDED:
        return (
            None,
            f"failures so far: {failures}; a life curve is fitted from {FAILURES_NEEDED} on, so none is drawn here",
        )
    try:
        return weibull_fit([each.years for each in lives], [bool(each.claim) for each in lives]), ""
    except ValueError as refused:
        return None, str(refused)
