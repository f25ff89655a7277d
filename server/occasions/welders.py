"""Welders as occasions: each coupon, what lapses when, and arcs that would need two pairs of hands."""

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from server.facts.occasion_people import CouponOccasion, WelderOccasion
from server.facts.subject import moment_subject
from server.occasions.about import About, asked_about
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.occasions.uses import Use


def coupon_occasions(tables: Tables, about: About = None) -> Iterator[CouponOccasion]:
    """Give every coupon, or those of some welders."""
    for coupon in tables.coupons_told(about):
        entry = coupon.entry
        yield CouponOccasion(
            subject=moment_subject(entry.welder, entry.happened),
            welder=entry.welder,
            procedures=entry.procedures,
            entry=coupon.told_in,
            at=coupon.at,
            result=coupon.result,
            fault=entry.fault,
            accept=tables.at(tables.days.day_of(coupon.at.at_ms)),
            used_after=_used_after(tables, coupon) if coupon.result == "failed" else (),
        )


def welder_occasions(tables: Tables, about: About = None) -> Iterator[WelderOccasion]:
    """Give every welder who has welded or holds a qualification, or some of them."""
    for welder in asked_about(tables.uses.by_welder.keys() | tables.standings.held.keys(), about):
        held = tables.standings.held.get(welder, [])
        yield WelderOccasion(
            subject=welder,
            welder=welder,
            today=tables.today,
            lapses=tuple((each.qualification.id, each.last) for each in held),
            overlaps=tuple(_overlaps(tables.uses.by_welder.get(welder, []))),
            accept=tables.at(tables.today),
        )


def overlap_occasions(tables: Tables, welders: Collection[str], joints: Collection[str]) -> Iterator[WelderOccasion]:
    """Give some welders once more, with nothing but their arcs at one time that are told of some joints."""
    for welder in sorted(welders):
        overlaps = _overlaps(tables.uses.by_welder.get(welder, []))
        of_joints = tuple(each for each in overlaps if each[2] in joints)
        if of_joints:
            yield WelderOccasion(welder, welder, tables.today, (), of_joints, tables.at(tables.today))


def _used_after(tables: Tables, coupon: Tested) -> tuple[str, ...]:
    since, procedures = coupon.at.at_ms, set(coupon.entry.procedures)
    good = [
        each.at.at_ms
        for each in tables.coupons_of(coupon.entry.welder)
        if each.result == "good" and procedures & set(each.entry.procedures)
    ]
    until = min((ms for ms in good if ms > since), default=tables.end_ms + 1)
    return tuple(
        use.entry
        for use in tables.uses.by_welder.get(coupon.entry.welder, ())
        if since < use.at.at_ms < until and tables.procedure_of(use) in procedures
    )


def _overlaps(uses: Sequence[Use]) -> Iterator[tuple[str, str, str]]:
    """Pairs of arcs by one person that ran at the same time, by more than the clocks can be off."""
    for before, after in pairwise(sorted(uses, key=_started)):
        slack = before.at.error_ms + after.at.error_ms if before.at.device != after.at.device else 0
        if after.started_ms + slack < before.at.at_ms:
            yield before.entry, after.entry, after.subject


def _started(use: Use) -> tuple[int, int]:
    return use.started_ms, use.at.at_ms
