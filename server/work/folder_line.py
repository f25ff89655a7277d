"""A register line as a shop folder tells it, and the kinds of noun a folder may tell."""

import hashlib
from dataclasses import dataclass
from typing import Any, get_args

from server.evidence.canonical import canonical_line
from server.facts.customers import CustomerNumber, DetailsRemoved
from server.facts.noun import Noun
from server.facts.register_line import AnyRegisterLine

_UNION = get_args(get_args(AnyRegisterLine)[0])
_THE_RECORDS_OWN = (CustomerNumber, DetailsRemoved)
NOUNS: dict[str, type[Noun]] = {
    kind: noun
    for noun in _UNION
    if noun not in _THE_RECORDS_OWN
    for kind in get_args(noun.model_fields["kind"].annotation)
}


@dataclass(frozen=True, slots=True)
class FolderLine:
    """One noun and the words it was told in; `received_ms` is none for what was known from the start."""

    noun: Any
    words: dict[str, Any]
    received_ms: int | None

    @property
    def digest(self) -> bytes:
        """SHA-256 of its words: told again in the same words it is the same line."""
        return digest_of_words(self.words)

    def body_at(self, position: int) -> bytes:
        """Seal the words; a permission is told here which record position its gate judged at, as no folder can know."""
        if self.noun.kind == "permission":
            return canonical_line({"known_at": position, **self.words})
        return canonical_line(self.words)


def digest_of_words(words: dict[str, Any]) -> bytes:
    """SHA-256 of what a person wrote about a noun."""
    return hashlib.sha256(canonical_line({name: words[name] for name in words if name != "known_at"})).digest()


def line_of(noun: Any, told: dict[str, Any], received_ms: int | None) -> FolderLine:
    """Keep what was told about a noun, in the words it was told in."""
    return FolderLine(noun, {**told, "kind": noun.kind}, received_ms)
