"""A register line as a shop folder tells it, and the kinds of noun a folder may tell."""

import hashlib
from dataclasses import dataclass
from typing import Any, get_args

from server.evidence.canonical import canonical_line
from server.facts.noun import Noun
from server.facts.register_line import AnyRegisterLine

_UNION = get_args(get_args(AnyRegisterLine)[0])
NOUNS: dict[str, type[Noun]] = {
    kind: noun for noun in _UNION for kind in get_args(noun.model_fields["kind"].annotation)
}


@dataclass(frozen=True, slots=True)
class FolderLine:
    """One noun with its canonical bytes; `received_ms` is none for what was known from the start."""

    noun: Any
    body: bytes
    received_ms: int | None

    @property
    def id(self) -> str:
        """Kind, id and digest: told again in the same words it is the same line."""
        return f"{self.noun.kind}:{self.noun.id}:{hashlib.sha256(self.body).hexdigest()[:16]}"


def line_of(noun: Any, told: dict[str, Any], received_ms: int | None) -> FolderLine:
    """Seal what was told about a noun, in the words it was told in."""
    return FolderLine(noun, canonical_line({**told, "kind": noun.kind}), received_ms)
