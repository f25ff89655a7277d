"""An instrument of the register, asked for by its id."""

from typing import Protocol

from server.facts.equipment import Instrument
from server.facts.registers import Registers
from server.work.refusal import NotThere

_FEW = 20


class RegisterQuestions(Protocol):
    """What is asked of the record."""

    def registers(self, known_at: int | None = None) -> Registers:
        """Give the registers."""


def known_instrument(reads: RegisterQuestions, name: str) -> Instrument:
    """Give an instrument; raises `NotThere` naming those there are."""
    known = reads.registers().instruments
    if name not in known:
        few = ", ".join(sorted(known)[:_FEW]) or "none"
        more = f" and {len(known) - _FEW} more" if len(known) > _FEW else ""
        raise NotThere(f"instrument: {name!r} is not in the register; known are {few}{more}")
    return known[name]
