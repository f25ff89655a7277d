"""What the suspect sets' screens show: the list, and one set with its joints, its neighbours and what narrows it."""

from dataclasses import dataclass

from server.facts.people import Person
from server.facts.suspect import Suspect, SuspectSet
from server.work.suspect_sets import BY, OneSet

PLACES = ("in work", "covered", "released", "shipped", "removed")
KINDS = {
    "bead": "a failed test bead",
    "coupon": "a failed coupon",
    "calibration": "a calibration that found its instrument wrong",
    "cross-check": "a failed cross-check",
}


@dataclass(frozen=True, slots=True)
class SetsPage:
    """All suspect sets."""

    sets: tuple[SuspectSet, ...]

    def kind(self, found: SuspectSet) -> str:
        """Say what opened a set."""
        return KINDS.get(found.kind, found.kind)


@dataclass(frozen=True, slots=True)
class SetPage:
    """One suspect set, who may sign, and what went wrong the last time."""

    found: OneSet
    signers: tuple[Person, ...]
    problems: tuple[str, ...]
    filled: dict[str, str]
    done: str
    ways: tuple[str, ...] = BY

    @property
    def kind(self) -> str:
        """What opened the set."""
        return KINDS.get(self.found.set.kind, self.found.set.kind)

    @property
    def by_place(self) -> list[tuple[str, list[Suspect]]]:
        """The joints still in, by where they are; what has been released and not shipped stands apart."""
        places: dict[str, list[Suspect]] = {place: [] for place in PLACES}
        for each in self.found.set.still_in:
            released = each.frame in self.found.released and each.whereabouts in ("in work", "covered")
            places["released" if released else each.whereabouts].append(each)
        return [(place, joints) for place, joints in places.items() if joints]

    @property
    def undone(self) -> set[str]:
        """The narrowings that another one undid."""
        return {each.undoes for each in self.found.narrowings if each.undoes}
