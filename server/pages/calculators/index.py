"""The list of calculators."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CalculatorCard:
    """One calculator on the list: its address, its name, what it answers."""

    called: str
    name: str
    answers: str


@dataclass(frozen=True, slots=True)
class CalculatorList:
    """The calculators, in the order of the work."""

    cards: tuple[CalculatorCard, ...] = (
        CalculatorCard("purge", "Purge of a frame", "How long until every member is clear? Which was forgotten?"),
        CalculatorCard("dew-point", "Dew point and readings", "How much water is in the gas? Can a reading be true?"),
        CalculatorCard("heat-input", "Heat input", "Steady or pulsed: how much energy per length?"),
        CalculatorCard("hold-time", "Hold time", "How long does the gas stay on after the arc goes out?"),
        CalculatorCard("imperfections", "Imperfections", "How deep may undercut be, how high the bead?"),
        CalculatorCard("eyes-and-air", "Eyes and air", "Which filter shade? Is there enough air in this room?"),
    )
