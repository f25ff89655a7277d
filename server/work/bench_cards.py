"""The limit cards a tablet holds: those in force, those that start later, and what each line asks to be read.

Each line carries the doubt its value will be judged with: that of the instrument, machine or panel the tablet names.
"""

from datetime import date
from typing import Any

from server.facts.limit_card import CardLine, LimitCard
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.looked_up import looked_up
from server.facts.registers import Registers
from server.procedures.card_lines import decimal_text, doubt_words
from server.procedures.cards import compile_cards
from server.work.at_hand import AtHand

# What is looked at, stamped on a part or lies in the drawer is compared as it stands.
_AS_IT_STANDS = frozenset({"looked", "inherited", "computed"})
_PICKED = frozenset({"tungsten", "cup", "rod"})


def cards_ahead(registers: Registers, on: date, hand: AtHand) -> list[dict[str, Any]]:
    """Give the cards in force on a day and those that start later, for a bench with these instruments to hand."""
    setting_doubt = _setting_doubt(registers, on)
    told = registers.procedures, registers.instruments
    cards = looked_up(registers, f"cards from {on}", told, lambda: compile_cards(told[0].values(), told[1], on))
    return [_card_told(registers, card, hand, setting_doubt) for card in cards]


def _card_told(registers: Registers, card: LimitCard, hand: AtHand, setting_doubt: str | None) -> dict[str, Any]:
    """Give a card with the shop's own words on cleaning and technique beside it, which are no part of its digest."""
    told = card.model_dump(mode="json")
    told["lines"] = [_line_told(line, hand, setting_doubt) for line in card.lines]
    procedure = registers.procedures.get((card.procedure, card.revision))
    told["cleaning"] = list(procedure.cleaning) if procedure else []
    told["technique"] = list(procedure.technique) if procedure else []
    return told


def _line_told(line: CardLine, hand: AtHand, setting_doubt: str | None) -> dict[str, Any]:
    reading = LIMIT_KINDS[line.name].reading
    doubt = _doubt(line, reading, hand, setting_doubt)
    return line.model_dump(mode="json") | {"reading": reading, "uncertainty": doubt}


def _doubt(line: CardLine, reading: str | None, hand: AtHand, setting_doubt: str | None) -> str | None:
    """Give the doubt of what will stand behind the value when it is keyed in at this bench; none: not on file."""
    if line.how == "set":
        return setting_doubt
    if reading is None:
        return "0" if line.how in _AS_IT_STANDS else line.uncertainty
    known = hand.counts(reading) if line.how == "counted" else hand.reads(reading)
    if known is None:
        return "0" if reading in _PICKED else None
    return doubt_words(known.fixed, known.share) or "0"


def _setting_doubt(registers: Registers, on: date) -> str | None:
    """Give the doubt of a setting read off a panel, as the shop's acceptance file has it that day; none on file."""
    told = [each for each in registers.acceptance.values() if each.name == "setting_uncertainty"]
    in_force = [each for each in told if each.valid_from <= on]
    if not in_force:
        return None
    return f"{decimal_text(max(in_force, key=lambda each: each.valid_from).value)} %"
