"""How many joints each failed check puts in doubt and how many are still in; counted anew where that may differ."""

from collections.abc import Mapping, Sequence
from operator import is_
from typing import NamedTuple

from server.facts.layered import differing
from server.occasions.failed_checks import FailedCheck
from server.occasions.narrowed import Cut
from server.occasions.suspects import reached, stays
from server.occasions.tables import Tables
from server.occasions.uses import Uses

_NAME = "suspect sets in short"


class SetInShort(NamedTuple):
    """One suspect set: what failed, over which stretch of time [ms, UTC], its joints, and those no fact let out."""

    check: str
    subject: str
    kind: str
    thing: str
    since_ms: int | None
    until_ms: int
    joints: int
    still_in: int


class _RestsOn(NamedTuple):
    """What a count rests on: lists and registers that are the same objects while nothing in them changed."""

    failed: FailedCheck
    cuts: Sequence[Cut]
    same: tuple[object, ...]

    def holds(self, now: "_RestsOn") -> bool:
        """Tell whether what was counted from this is what one would count now."""
        if len(self.same) != len(now.same) or (self.failed, self.cuts) != (now.failed, now.cuts):
            return False
        return all(one is other for one, other in zip(self.same, now.same, strict=True))


class _State(NamedTuple):
    """What was counted from the passes of one state, with all it rests on as it stood."""

    uses: Uses
    rest: tuple[object, ...]
    cuts: Mapping[str, Sequence[Cut]]
    counted: Mapping[str, tuple[_RestsOn, SetInShort]]
    newest_first: Sequence[SetInShort]


def sets_in_short(tables: Tables) -> Sequence[SetInShort]:
    """Give every set, the newest failed check first."""
    return tables.made_of.kept(_NAME, (tables.uses,), lambda known: _carried_on(known, tables)).newest_first


def _carried_on(known: _State | None, tables: Tables) -> _State:
    failed = tables.every_failed()
    cuts: Mapping[str, Sequence[Cut]] = tables.cuts.by_check()
    rest = (failed, cuts, tables.calibrations_of, tables.revisions, *_of_procedures(tables))
    changed = None
    if known is not None and all(map(is_, known.rest, rest)):
        changed = _used_otherwise(known.uses, tables.uses)
        failed = [each for each in failed if not changed.isdisjoint(_things(tables, each))] if changed else []
    if known is not None and known.cuts == cuts:
        cuts = known.cuts
    before = known.counted if known else {}
    counted = {each.check: _counted(tables, each, cuts, before) for each in failed}
    if known is not None and changed is not None:
        counted = {**known.counted, **counted}
    newest = sorted((short for _, short in counted.values()), key=lambda each: -each.until_ms)
    return _State(tables.uses, rest, cuts, counted, newest)


def _used_otherwise(before: Uses, now: Uses) -> set[str]:
    """The lines, welders and instruments under which other passes stand."""
    return {
        *differing(before.by_line, now.by_line),
        *differing(before.by_welder, now.by_welder),
        *differing(before.by_instrument, now.by_instrument),
    }


def _things(tables: Tables, failed: FailedCheck) -> set[str]:
    """The things whose passes a check reaches."""
    return {failed.thing, *tables.uses.lines_read_by(failed.thing)}


def _counted(
    tables: Tables,
    failed: FailedCheck,
    cuts: Mapping[str, Sequence[Cut]],
    before: Mapping[str, tuple[_RestsOn, SetInShort]],
) -> tuple[_RestsOn, SetInShort]:
    rests_on = _rests_on(tables, failed, cuts)
    known = before.get(failed.check)
    if known is not None and known[0].holds(rests_on):
        return known
    in_doubt = reached(tables, failed).values()
    still_in = sum(stays(tables, failed, uses) for uses in in_doubt)
    about = failed.check, failed.subject, failed.kind, failed.thing, failed.since_ms, failed.until_ms
    return rests_on, SetInShort(*about, len(in_doubt), still_in)


def _rests_on(tables: Tables, failed: FailedCheck, cuts: Mapping[str, Sequence[Cut]]) -> _RestsOn:
    uses, own = tables.uses, cuts.get(failed.check, ())
    if failed.kind == "bead":
        same: tuple[object, ...] = (uses.by_line.get(failed.thing),)
    elif failed.kind == "coupon":
        same = (uses.by_welder.get(failed.thing), *_of_procedures(tables))
    else:
        lines = sorted(uses.lines_read_by(failed.thing))
        same = (uses.by_instrument.get(failed.thing), *map(uses.by_line.get, lines))
    if any(cut.by == "as-found curve" for cut in own):
        # A reading put right by a curve is held against the limit of its procedure; other cuts say where it holds.
        same = (*same, cuts, tables.calibrations_of, tables.revisions, *_of_procedures(tables))
    return _RestsOn(failed, own, same)


def _of_procedures(tables: Tables) -> tuple[object, ...]:
    return tables.drawings, tables.packet_of
