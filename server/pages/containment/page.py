"""What the containment screens show: the list, the form with its draft notice, and one with its frames."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from server.facts.claim import ClaimStep
from server.facts.orders import Customer
from server.work.contain import ACTS, ContainmentFile
from server.work.what_else import Shared, WhatElse

_INSIDE = ("in work", "covered", "finished", "back in the house")


@dataclass(frozen=True, slots=True)
class ContainmentsPage:
    """All containments, newest first, and what was told out of claims about other frames than the claimed one."""

    files: tuple[ContainmentFile, ...]
    in_claims: tuple[ClaimStep, ...]
    customers: Mapping[str, Customer]

    def named(self, to: str | None) -> str:
        """Give the name behind a customer's id, or the words that were written."""
        return _named(self.customers, to)


@dataclass(frozen=True, slots=True)
class NewPage:
    """A containment about to be opened: what was found, what it was asked by, what was typed and ticked."""

    found: WhatElse
    asked: str
    filled: Mapping[str, str]
    problems: tuple[str, ...]
    ticked: Collection[str] | None = None

    def is_ticked(self, frame: str) -> bool:
        """Every frame at first; after something was wrong, those that had been left ticked."""
        return self.ticked is None or frame in self.ticked

    @property
    def frames(self) -> list[tuple[str, list[Shared]]]:
        """The frames that still have a joint of the set in them, those that left the house first."""
        found: dict[str, list[Shared]] = {}
        for each in self.found.shared:
            if each.place != "removed":
                found.setdefault(each.frame, []).append(each)
        return sorted(found.items(), key=lambda item: (item[1][0].place in _INSIDE, item[0]))

    @property
    def notice(self) -> str:
        """A draft of what whoever has one of the frames is told: neutral words, nothing about cause or fault."""
        gone = [frame for frame, joints in self.frames if joints[0].place not in _INSIDE]
        serials = ", ".join(gone) if gone else "none has left the house"
        return "\n\n".join(
            (
                f"To the owner of a frame with one of these serials: {serials}.",
                (
                    f"When we went through our records we found that some welds of these frames share {self._shared}"
                    f"{self._doubt}. That does not mean that your frame has a fault."
                ),
                (
                    "Please do not use it until we have looked at it. Write or telephone; we fetch it at our cost and "
                    "tell you in writing what we found."
                ),
                "[Name, address, telephone. Counsel has read this on: … Authority told on: …]",
            )
        )

    @property
    def _shared(self) -> str:
        """What they share; a letter to a customer names no person."""
        return " and ".join("one welder" if each.kind == "welder" else each.words for each in self.found.asked)

    @property
    def _doubt(self) -> str:
        return ", about which a check gave doubt" if self.found.failed else " [say in plain words what is in doubt]"


@dataclass(frozen=True, slots=True)
class ContainmentPage:
    """One containment, and what was typed when a step was not taken."""

    file: ContainmentFile
    filled: Mapping[str, str]
    problems: tuple[str, ...]
    customers: Mapping[str, Customer]
    home: Mapping[str, int]
    """Its frames that came back and have not left again, with when [ms, UTC]."""

    def named(self, to: str | None) -> str:
        """Give the name behind a customer's id, or the words that were written."""
        return _named(self.customers, to)

    @property
    def acts(self) -> tuple[str, ...]:
        """What can be written about a frame."""
        return ACTS


def _named(customers: Mapping[str, Customer], to: str | None) -> str:
    known = customers.get(to or "")
    return known.name if known else to or ""
