"""The revision of each procedure in force on each day, its limits for each kind of joint and run, and its cards."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import lru_cache

from server.facts.design import Joint
from server.facts.figure import CardName
from server.facts.limit import Limit
from server.facts.procedure import Procedure
from server.occasions.spans import Spans
from server.procedures.cards import known_cards


class Revisions:
    """All revisions known; `on` is the day all is held against, none for the day of each weld."""

    def __init__(self, procedures: Iterable[Procedure], on: int | None) -> None:
        known = tuple(sorted(procedures, key=_age))
        by_name: dict[str, list[Procedure]] = defaultdict(list)
        for procedure in known:
            by_name[procedure.name].append(procedure)
        self._spans = {name: Spans((p.valid_from.toordinal(), p) for p in each) for name, each in by_name.items()}
        self._repairs = [name for name, each in by_name.items() if each[-1].stage == "repair"]
        self._on = on
        self._limits: dict[tuple[str, str, str, str | None], Mapping[str, Limit]] = {}
        self._colours: dict[tuple[str, str, str], tuple[Limit, ...]] = {}
        self._known = known
        self._cards: Mapping[str, CardName] | None = None

    def in_force(self, name: str, day: int) -> Procedure | None:
        """Give the revision in force on a day."""
        spans = self._spans.get(name)
        return spans.at(day) if spans else None

    def judged_by(self, name: str, day: int) -> Procedure | None:
        """Give the revision a weld of that day is held against: that of its day, or that of the day asked for."""
        return self.in_force(name, day if self._on is None else self._on)

    def repair_for(self, joint: Joint, day: int) -> Procedure | None:
        """Give the repair procedure in force that may be used on this kind of joint."""
        own = self.in_force(joint.procedure, day)
        found = [p for name in self._repairs if (p := self.judged_by(name, day)) is not None]
        fitting = [p for p in found if own is None or not p.repairs or own.joint_kind in p.repairs]
        return fitting[0] if fitting else None

    def limits(self, procedure: Procedure | None, kind: str, run: str | None) -> Mapping[str, Limit]:
        """Give the limits of a revision by name and line, as `dew_point purge`, for one kind of joint and run."""
        if procedure is None:
            return {}
        key = (procedure.name, procedure.revision, kind, run)
        found = self._limits.get(key)
        if found is None:
            found = self._limits[key] = _by_name(procedure, kind, run)
        return found

    def colours(self, procedure: Procedure | None, kind: str) -> tuple[Limit, ...]:
        """Give the colour limits of a revision, which differ by side and zone."""
        if procedure is None:
            return ()
        key = (procedure.name, procedure.revision, kind)
        found = self._colours.get(key)
        if found is None:
            found = tuple(each for each in procedure.limits if each.name == "colour" and _for_kind(each, kind))
            self._colours[key] = found
        return found

    def shown(self, card: str | None) -> CardName | None:
        """Give the revision a card digest was made from; none when no revision known here gave that card."""
        if card is None:
            return None
        if self._cards is None:
            self._cards = _compiled(_Cards(self._known))
        return self._cards.get(card)


class _Cards(tuple[Procedure, ...]):
    """Revisions compared by the digests of their files, so that their cards are compiled once."""

    def __hash__(self) -> int:
        return hash(tuple((p.name, p.revision, p.sha256) for p in self))


@lru_cache(maxsize=8)
def _compiled(known: _Cards) -> Mapping[str, CardName]:
    return {digest: CardName(card.procedure, card.revision) for digest, card in known_cards(known).items()}


def _by_name(procedure: Procedure, kind: str, run: str | None) -> dict[str, Limit]:
    held = [each for each in procedure.limits if each.name != "colour" and _for_kind(each, kind)]
    held = [each for each in held if run is None or not each.runs or run in each.runs]
    # What is written for one run or one kind of joint stands above what is written for all.
    held.sort(key=lambda each: (bool(each.runs), bool(each.joint_kinds)))
    return {f"{each.name} {each.line}" if each.line else each.name: each for each in held}


def _for_kind(limit: Limit, kind: str) -> bool:
    return not limit.joint_kinds or kind in limit.joint_kinds


def _age(procedure: Procedure) -> tuple[str, int, str]:
    return procedure.name, procedure.valid_from.toordinal(), procedure.revision
