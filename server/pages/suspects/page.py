"""What the suspect sets' screens show: the list, and one set with its joints, its neighbours and what narrows it."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from server.facts.people import Person
from server.facts.suspect import Suspect
from server.pages.frame.paged import Part
from server.work.sets_in_short import SetInShort
from server.work.suspect_sets import BY, OneSet

SHOWN = 50
"""How many sets stand on one page of the list."""

PLACES = ("in work", "covered", "released", "shipped", "removed")
KINDS = {
    "bead": "a failed test bead",
    "coupon": "a failed coupon",
    "calibration": "a calibration that found its instrument wrong",
    "cross-check": "a failed cross-check",
}


@dataclass(frozen=True, slots=True)
class SetsAsked:
    """Which sets are asked for: with that in their name, of one kind, only those that still hold something back."""

    find: str = ""
    kind: str = ""
    holding: bool = False

    def of(self, found: Sequence[SetInShort]) -> Sequence[SetInShort]:
        """Give those asked for, in their order."""
        if self.holding:
            found = [each for each in found if each.still_in]
        if self.kind:
            found = [each for each in found if each.kind == self.kind]
        if lower := self.find.lower():
            found = [each for each in found if lower in each.subject.lower()]
        return found

    @property
    def words(self) -> str:
        """Say which."""
        named = [f"{self.find} in the name"] if self.find else []
        failed = [f"a failed {self.kind}"] if self.kind else []
        return ", ".join([*failed, *named, *(["still holding something back"] if self.holding else [])])

    def address(self, **otherwise: str | bool) -> str:
        """The address that asks for these, or for these with something otherwise."""
        told = {"find": self.find, "kind": self.kind, "holding": self.holding} | otherwise
        asked = urlencode({name: "yes" if each is True else each for name, each in told.items() if each})
        return "/suspect-sets" + (f"?{asked}" if asked else "")


@dataclass(frozen=True, slots=True)
class SetsPage:
    """The suspect sets asked for, as many as fit, with how many there are and how many hold something back."""

    asked: SetsAsked
    shown: Part[SetInShort]
    total: int
    holding: int
    kinds: tuple[str, ...] = tuple(KINDS)

    def kind(self, found: SetInShort) -> str:
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
