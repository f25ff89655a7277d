"""The suspect sets as the record knows them, and the facts that could make one smaller."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple, get_args

from server.facts.deciding import Narrowing
from server.facts.frame_papers import permissions_of
from server.facts.suspect import SuspectSet
from server.occasions.build import Shop
from server.occasions.suspects import suspect_set
from server.occasions.tables import Tables
from server.record.reads import Reads
from server.work.clearing_facts import Cleared, clearing_facts
from server.work.known_shop import shop_now, shop_with
from server.work.refusal import NotThere
from server.work.sets_in_short import SetInShort, sets_in_short

_MOST_OFFERS = 6
_NOBODY = {"person": "nobody", "role": "nobody", "at": "1970-01-01T00:00:00.000Z", "meaning": "a trial"}
_TRIAL = {"id": "a trial", "reason": "a trial", "signatures": [_NOBODY | {"shown_sha256": ""}]}
BY = tuple(each for each in get_args(Narrowing.model_fields["by"].annotation) if each != "none")


class Offer(NamedTuple):
    """A fact that could narrow a set: by what, its id, in words when it happened [ms, UTC], and what it would leave."""

    by: str
    fact: str
    words: str
    at_ms: int
    leaves: int
    lets_out: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()


class OneSet(NamedTuple):
    """One set with the narrowings signed about it and the facts on offer."""

    set: SuspectSet
    narrowings: tuple[Narrowing, ...]
    offers: tuple[Offer, ...]
    released: frozenset[str]


def suspect_sets(reads: Reads) -> list[SuspectSet]:
    """Give every set, the newest failed check first."""
    sets = shop_now(reads).suspect_sets()
    return sorted(sets, key=lambda each: -each.until_ms)


def suspect_sets_in_short(reads: Reads) -> Sequence[SetInShort]:
    """Give every set in short, the newest failed check first."""
    return sets_in_short(shop_now(reads).tables)


def one_suspect_set(reads: Reads, check: str) -> OneSet:
    """Give one set with what could narrow it; raises `NotThere` when no failed check of that id is known."""
    shop = shop_now(reads)
    found = _set_of(shop, check)
    if found is None:
        raise NotThere(f"{check!r} is no failed check the record knows; sets are listed under suspect sets")
    offers = _offers(reads, shop, found, clearing_facts(reads, shop, found))
    registers = shop.tables.registers
    narrowings = tuple(each for each in registers.narrowings.values() if each.check == check)
    frames = {each.frame for each in found.suspects}
    released = {each for each in frames if any(it.permits == "release" for it in permissions_of(registers, each))}
    return OneSet(found, narrowings, tuple(offers), frozenset(released))


def _set_of(shop: Shop, check: str) -> SuspectSet | None:
    failed = next((each for each in shop.tables.every_failed() if each.check == check), None)
    return suspect_set(shop.tables, failed) if failed else None


def _offers(reads: Reads, shop: Shop, found: SuspectSet, cleared: Iterable[Cleared]) -> list[Offer]:
    """Give the newest facts that would let somebody out and are not signed already."""
    registers = shop.tables.registers
    signed = [each for each in registers.narrowings.values() if each.check == found.check]
    undone = {each.undoes for each in signed}
    used = {each.fact for each in signed if each.id not in undone}
    told = (*_cylinders(shop.tables, found), *_cross_checks(shop.tables, found))
    facts = [each for each in told if each.fact not in used]
    curve = registers.calibrations.get(found.check)
    if curve is not None and curve.as_found and curve.id not in used:
        words = "the curve found at calibration, put behind each reading"
        facts.append(Offer("as-found curve", curve.id, words, curve.at, 0))
    facts += [
        Offer(each.by, each.rests_on[-1], each.words, each.at_ms, 0, each.lets_out, each.rests_on) for each in cleared
    ]
    newest = sorted(facts, key=lambda each: -each.at_ms)[:_MOST_OFFERS]
    offers = [each._replace(leaves=_would_leave(reads, shop, found.check, each)) for each in newest]
    return [each for each in offers if each.leaves < len(found.still_in)]


def _cylinders(tables: Tables, found: SuspectSet) -> list[Offer]:
    return [
        Offer("cylinder connected", it.id, f"{it.on} came onto {it.line}", it.happened, 0)
        for it in (each.entry for each in tables.gas.changes.get(found.thing, ()))
        if it.on and _inside(found, it.happened)
    ]


def _cross_checks(tables: Tables, found: SuspectSet) -> list[Offer]:
    return [
        Offer("cross-check", it.id, f"a good cross-check of {it.subject}", it.happened, 0)
        for it in (each.entry for each in tables.checks_about(found.thing))
        if it.check == "cross" and it.result == "good"
        if _inside(found, it.happened)
    ]


def _inside(found: SuspectSet, at_ms: int) -> bool:
    return (found.since_ms is None or found.since_ms < at_ms) and at_ms < found.until_ms


def _would_leave(reads: Reads, shop: Shop, check: str, offer: Offer) -> int:
    """What the set would be were this fact signed: worked out the way the judge would, on a copy of the registers."""
    told = {"check": check, "by": offer.by, "fact": offer.fact, "lets_out": offer.lets_out}
    trial = Narrowing.model_validate(_TRIAL | told)
    registers = shop.tables.registers
    with_it = replace(registers, narrowings={**registers.narrowings, trial.id: trial})
    found = _set_of(shop_with(reads, shop, with_it), check)
    return len(found.still_in) if found else 0
