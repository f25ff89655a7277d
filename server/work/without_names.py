"""Takes the people out of a dossier: names and personal ids become roles, in every text wherever it stands."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from server.facts.registers import Registers
from server.work.names_in_words import Put, told_words, typed_words
from server.work.names_known import Earlier, KnownNames

_PERSON = ("who", "person", "by", "welder", "packed_by", "released_by", "written_by")
_ALWAYS_A_PERSON = ("who", "person", "welder")
_TYPED = (
    *("note", "late_reason", "reason", "what", "words", "meaning", "title", "cause", "action", "containment"),
    *("recurred", "problem", "text", "marked"),
)
_NOT_TOUCHED = frozenset(("shop", "asks", "questions"))
"""Who made it says so by its own name; what the rule book asks names nobody."""


class Nameless(NamedTuple):
    """The same data without anybody's name, and at how many places one stood in what was typed."""

    told: Any
    places: int


def without_names(told: Any, registers: Registers, earlier: Earlier | None = None) -> Nameless:
    """Give the same data with each person as `welder 1` and each customer as `a customer`, in keys and values alike.

    What somebody typed is looked through for every way a name may be typed; elsewhere names stand as registered.
    An id that is also the name of a joint, a tube or a procedure is taken for a person only where a person stands.
    """
    walk = _Walk(KnownNames(registers, earlier or {}))
    return Nameless(walk.through(told), walk.places)


class _Walk:
    def __init__(self, known: KnownNames) -> None:
        self._known = known
        self._told: dict[str, str] = {}
        self._typed: dict[str, Put] = {}
        self.places = 0

    def through(self, told: Any, *, typed: bool = False) -> Any:
        if isinstance(told, str):
            return self._words(told, typed=typed)
        if isinstance(told, Mapping):
            return {self._words(key): self._value(key, value, told) for key, value in told.items()}
        if isinstance(told, list | tuple):
            return [self.through(each, typed=typed) for each in told]
        return told

    def _value(self, key: str, value: Any, beside: Mapping[str, Any]) -> Any:
        if key in _NOT_TOUCHED:
            return value
        if isinstance(value, str) and (key in _PERSON or (key == "id" and "roles" in beside)):
            unknown = "a person" if value and key in _ALWAYS_A_PERSON else self._words(value)
            return self._known.roles.get(value, unknown)
        return self.through(value, typed=key in _TYPED)

    def _words(self, text: str, *, typed: bool = False) -> str:
        if typed:
            put = self._typed.get(text) or self._typed.setdefault(text, typed_words(text, self._known))
            self.places += put.places
            return put.words
        return self._told.get(text) or self._told.setdefault(text, told_words(text, self._known))
