"""The limit cards the tablets showed: compiled from the written procedures as the house compiles them."""

from collections.abc import Iterable
from pathlib import Path

from server.procedures.cards import known_cards
from server.procedures.reading import read_procedure


def shown_cards(files: Iterable[Path]) -> dict[tuple[str, str], str]:
    """Give the digest of each revision's card; of a repair's, the one for the first kind of joint."""
    procedures = [read_procedure(file.read_text(encoding="utf-8"), file.name) for file in files]
    found: dict[tuple[str, str], str] = {}
    for digest, card in known_cards(procedures).items():
        found.setdefault((card.procedure, card.revision), digest)
    return found
