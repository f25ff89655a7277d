"""Limit cards: each revision compiled for each kind of joint it may be used on, with a digest that names it."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from datetime import date

from server.facts.equipment import Instrument
from server.facts.limit_card import LimitCard
from server.facts.procedure import DEFERRAL, Procedure
from server.procedures.card_lines import card_lines
from server.procedures.in_force import last_day, revision_in_force

MOVES = {"valid_until", "digest"}


def compile_cards(
    procedures: Iterable[Procedure], instruments: Mapping[str, Instrument], on: date
) -> tuple[LimitCard, ...]:
    """The cards of the revisions in force on a day and of those that start later, so that they can be fetched ahead."""
    known = list(procedures)
    wanted = [p for p in known if p.valid_from > on or p is revision_in_force(known, p.name, on)]
    wanted.sort(key=lambda p: (p.name, p.valid_from, p.revision))
    return tuple(card for p in wanted for card in _cards(p, instruments, last_day(known, p)))


def known_cards(procedures: Iterable[Procedure]) -> dict[str, LimitCard]:
    """Every card any of these revisions ever gave, by its digest: which card was it that the tablet showed?"""
    return {card.digest: card for p in procedures for card in _cards(p, {}, None)}


def card_digest(card: LimitCard) -> str:
    """SHA-256, in hex, over the canonical JSON of what the written procedure says on this card."""
    said = card.model_dump(mode="json", exclude=MOVES)
    for line in said["lines"]:
        del line["uncertainty"]
    return hashlib.sha256(_canonical(said)).hexdigest()


def _cards(procedure: Procedure, instruments: Mapping[str, Instrument], until: date | None) -> list[LimitCard]:
    kinds = procedure.repairs if procedure.stage == "repair" else (procedure.joint_kind,)
    return [_card(procedure, kind, instruments, until) for kind in kinds]


def _card(procedure: Procedure, kind: str, instruments: Mapping[str, Instrument], until: date | None) -> LimitCard:
    cautions = [f"{caution.where}: {caution.words} ({caution.authority})" for caution in procedure.cautions]
    card = LimitCard(
        procedure=procedure.name,
        revision=procedure.revision,
        procedure_sha256=procedure.sha256,
        joint_kind=kind,
        stage=procedure.stage,
        valid_from=procedure.valid_from.isoformat(),
        valid_until=until.isoformat() if until else None,
        lines=card_lines(procedure, kind, instruments.values()),
        cautions=(*cautions, DEFERRAL),
    )
    return card.model_copy(update={"digest": card_digest(card)})


def _canonical(value: object) -> bytes:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
