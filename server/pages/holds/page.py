"""What the page of legal holds shows: every frame under hold, every line about one, and what was typed."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.legal_hold import LegalHold


@dataclass(frozen=True, slots=True)
class HoldsPage:
    """The holds that stand, every line told about holds newest first, and the form as it was sent."""

    standing: tuple[LegalHold, ...]
    told: tuple[LegalHold, ...]
    filled: Mapping[str, str]
    problems: tuple[str, ...]
    done: str
