"""Nouns read back from bytes that were validated when they were taken: the same nouns, without asking it all again."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import NoneType, UnionType
from typing import Annotated, Any, Generic, Literal, NamedTuple, TypeVar, Union, get_args, get_origin

from annotated_types import Ge, Gt, Le, Lt, MaxLen, MinLen
from pydantic import BaseModel, TypeAdapter
from pydantic.fields import FieldInfo
from pydantic_core import from_json

from server.facts.entry import Moment
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.moment import parse_moment
from server.facts.register_line import REGISTER_LINE, AnyRegisterLine
from server.facts.values import Values, kept_values

Kept = TypeVar("Kept", bound=BaseModel)
Read = Callable[[Any], Any]
_PLAIN = frozenset({str, int, bool, float, NoneType})
_ONLY_CHECKS = (Ge, Gt, Le, Lt, MinLen, MaxLen)
_MOST_SHAPES = 4096
_set, _new = object.__setattr__, object.__new__


class _Shape(NamedTuple):
    """How lines with the same names, and the same kind of JSON under each, become a noun."""

    noun: type[BaseModel]
    told: set[str]
    blank: Mapping[str, Any]
    fresh: tuple[tuple[str, Callable[[], Any]], ...]
    read: tuple[tuple[str, Read], ...]


class KeptNouns(Generic[Kept]):
    """Reads the nouns of one union by their kind.

    A field whose JSON is what the noun holds is taken over; any other is read by itself as the noun reads it. A shape
    seen for the first time, and a line that does not fit its shape, is validated as a whole.
    """

    def __init__(self, union: TypeAdapter[Kept], values: Read = kept_values) -> None:
        """`values` reads the named values of a line; it may leave out what nobody will ask for."""
        self._union = union
        self._values = values
        self._shapes: dict[tuple[object, ...], _Shape | None] = {}

    def read(self, body: bytes) -> Kept:
        """Give the noun of a kept line; raises what its validation raises."""
        try:
            told = from_json(body)
            shape = self._shapes[told["kind"], *told, *map(type, told.values())]
            if shape is not None:
                noun: Kept = _made(shape, told)
                return noun
        except (KeyError, TypeError, ValueError, AttributeError):
            return self._learned(body)
        return self._validated(body)

    def _validated(self, body: bytes) -> Kept:
        return self._union.validate_json(body)

    def _learned(self, body: bytes) -> Kept:
        noun = self._validated(body)
        told = from_json(body)
        if len(self._shapes) < _MOST_SHAPES:
            self._shapes[told["kind"], *told, *map(type, told.values())] = _shape(type(noun), told, self._values)
        return noun


def _made(shape: _Shape, told: dict[str, Any]) -> Any:
    fields = {**shape.blank, **told}
    for name, read in shape.read:
        fields[name] = read(fields[name])
    for name, make in shape.fresh:
        fields[name] = make()
    noun = _new(shape.noun)
    # Nothing changes a noun, so all of a shape share the set of the names they were told.
    _set(noun, "__dict__", fields)
    _set(noun, "__pydantic_fields_set__", shape.told)
    _set(noun, "__pydantic_extra__", None)
    _set(noun, "__pydantic_private__", None)
    return noun


def _shape(noun: type[BaseModel], told: Mapping[str, Any], values: Read) -> _Shape | None:
    """A noun with a reader of its own for the whole or for a field is left to it; what only checks has checked."""
    read_otherwise = noun.__pydantic_decorators__
    of_the_whole = [each.info.mode for each in read_otherwise.model_validators.values()]
    if read_otherwise.field_validators or any(mode != "after" for mode in of_the_whole):
        return None
    fields = noun.model_fields
    reads = {name: _reader(fields[name], type(value), values) for name, value in told.items()}
    untold = {name: field for name, field in fields.items() if name not in told}
    return _Shape(
        noun,
        set(told),
        {name: field.default for name, field in fields.items()},
        tuple((name, field.default_factory) for name, field in untold.items() if field.default_factory),  # type: ignore[misc]
        tuple((name, read) for name, read in reads.items() if read is not None),
    )


def _reader(field: FieldInfo, told: type, values: Read) -> Read | None:
    """Give how a field reads JSON of a type; none where it holds it as it is."""
    whole: Any = Annotated[(field.annotation, *field.metadata)] if field.metadata else field.annotation
    members = list(_members(whole))
    if any(_holds(each, told) for each in members):
        return None
    if told is str and Moment in members:
        return parse_moment
    if told is dict and Values in members:
        return values
    return TypeAdapter(whole).validate_python


def _members(wanted: Any) -> Iterator[Any]:
    """Give what a field may hold, past what only checks it."""
    origin, parts = get_origin(wanted), get_args(wanted)
    if origin in (Union, UnionType):
        for each in parts:
            yield from _members(each)
    elif origin is Annotated and all(isinstance(each, _ONLY_CHECKS) for each in parts[1:]):
        yield from _members(parts[0])
    else:
        yield wanted


def _holds(wanted: Any, told: type) -> bool:
    if get_origin(wanted) is Literal:
        return {type(each) for each in get_args(wanted)} == {told}
    return wanted is told and told in _PLAIN


KEPT_ENTRIES: KeptNouns[AnyEntry] = KeptNouns(LOG_ENTRY)
KEPT_REGISTER_LINES: KeptNouns[AnyRegisterLine] = KeptNouns(REGISTER_LINE)


def in_short(values: Iterable[str]) -> KeptNouns[AnyEntry]:
    """Give a reader of entries that reads these values of an entry and no others."""
    wanted = frozenset(values)

    def read(told: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
        return kept_values({name: each for name, each in told.items() if name in wanted})

    return KeptNouns(LOG_ENTRY, read)
