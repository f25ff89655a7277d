"""The limit cards a tablet holds: those in force, those that start later, and what each line asks to be read."""

from datetime import date
from typing import Any

from server.facts.limit_card import CardLine, LimitCard
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.registers import Registers
from server.procedures.card_lines import decimal_text
from server.procedures.cards import compile_cards

# What is picked from a card or stamped on a part is compared as it stands.
_AS_IT_STANDS = frozenset({"looked", "typed", "inherited", "computed"})


def cards_ahead(registers: Registers, on: date) -> list[dict[str, Any]]:
    """Give the cards in force on a day and those that start later."""
    setting_doubt = _setting_doubt(registers, on)
    cards = compile_cards(registers.procedures.values(), registers.instruments, on)
    return [_card_told(registers, card, setting_doubt) for card in cards]


def _card_told(registers: Registers, card: LimitCard, setting_doubt: str | None) -> dict[str, Any]:
    """Give a card with the shop's own words on cleaning and technique beside it, which are no part of its digest."""
    told = card.model_dump(mode="json")
    told["lines"] = [_line_told(line, setting_doubt) for line in card.lines]
    procedure = registers.procedures.get((card.procedure, card.revision))
    told["cleaning"] = list(procedure.cleaning) if procedure else []
    told["technique"] = list(procedure.technique) if procedure else []
    return told


def _line_told(line: CardLine, setting_doubt: str | None) -> dict[str, Any]:
    told = line.model_dump(mode="json")
    told["reading"] = LIMIT_KINDS[line.name].reading
    if line.how == "set":
        told["uncertainty"] = setting_doubt
    elif line.uncertainty is None and line.how in _AS_IT_STANDS:
        told["uncertainty"] = "0"
    return told


def _setting_doubt(registers: Registers, on: date) -> str | None:
    """Give the doubt of a setting read off a panel, as the shop's acceptance file has it that day; none on file."""
    told = [each for each in registers.acceptance.values() if each.name == "setting_uncertainty"]
    in_force = [each for each in told if each.valid_from <= on]
    if not in_force:
        return None
    return f"{decimal_text(max(in_force, key=lambda each: each.valid_from).value)} %"
