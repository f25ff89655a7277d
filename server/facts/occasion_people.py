"""What is known of welders: their coupons, their qualifications in time, and arcs that overlap."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance


@dataclass(frozen=True, slots=True)
class CouponOccasion:
    """A welder's coupon with its final result; `used_after` are passes it would have qualified, before the next."""

    subject: str
    welder: str
    procedures: tuple[str, ...]
    entry: str
    at: Stamp
    result: str
    fault: str | None
    accept: Mapping[str, Acceptance]
    used_after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WelderOccasion:
    """A welder: the days each qualification lasts to, as known now, and pairs of arcs at the same time
    with the joint of the later one."""

    subject: str
    welder: str
    today: int
    lapses: tuple[tuple[str, int], ...]
    overlaps: tuple[tuple[str, str, str], ...]
    accept: Mapping[str, Acceptance]
