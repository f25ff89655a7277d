"""What every kind of question shares: one connection, one transaction, and how far back the answer may know."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar

from sqlalchemy import Connection, func, select

from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.record.at_benches import KnownAtBenches
from server.record.boots_heard import BootsHeard
from server.record.carried import Carried
from server.record.carried_state import CarriedOn
from server.record.findings_short import FindingsShort
from server.record.known_registers import KnownRegisters
from server.record.proving_subject import SealedSubjects
from server.record.tables.columns import LINE

Made = TypeVar("Made")
AT_THE_END = 2**53
"""A position behind every line, for a question that is asked of everything known."""


@dataclass(frozen=True)
class Remembered:
    """What all readers of one record share, so that it is read from the database only once."""

    registers: KnownRegisters = field(default_factory=KnownRegisters)
    clock_pairs: Carried[ClockPair] = field(default_factory=Carried)
    shared: Carried[Recorded] = field(default_factory=Carried)
    passes: Carried[Recorded] = field(default_factory=Carried)
    mending: Carried[Recorded] = field(default_factory=Carried)
    boots: BootsHeard = field(default_factory=BootsHeard)
    at_benches: KnownAtBenches = field(default_factory=KnownAtBenches)
    findings: FindingsShort = field(default_factory=FindingsShort)
    sealed: SealedSubjects = field(default_factory=SealedSubjects)
    shop: CarriedOn[Any] = field(default_factory=CarriedOn)


class Asking:
    """A connection to ask over, and what was read before."""

    def __init__(
        self, connection: Connection, remembered: Remembered, kept: int | None = None, last: int | None = None
    ) -> None:
        """Ask over a connection; the writer says which position is kept for good, and which is the last."""
        self._connection = connection
        self._remembered = remembered
        self._kept = kept
        self._last = last

    def last_position(self) -> int:
        """Give the position of the last line, 0 when there is none; it does not change while questions are asked."""
        if self._last is None:
            self._last = self._connection.execute(select(func.max(LINE.position))).scalar() or 0
        return self._last

    def carried_on(self, position: int, carry: Callable[[Made | None], Made]) -> Made:
        """Give what is made of everything known at a position, carried on from the nearest earlier state.

        What the writer's turn makes is given to nobody else: what is not kept yet may be taken back.
        """
        shop: CarriedOn[Made] = self._remembered.shop
        if self._kept is not None and position > self._kept:
            return carry(shop.nearest(position))
        return shop.at(position, carry)

    def carried_at(self, position: int) -> Any:
        """Give what was made of everything known at a position, where it is still there."""
        return self._remembered.shop.exactly(position)

    def _no_later(self, known_at: int | None) -> int:
        last = self.last_position()
        return last if known_at is None else min(known_at, last)


def up_to(known_at: int | None) -> int:
    """Give the last position an answer may rest on; one that no database can hold is the end."""
    return AT_THE_END if known_at is None else min(known_at, AT_THE_END)
