"""Entries as they stand once every later correction is read into them; what was withdrawn is gone."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Annotated, Any

from pydantic import TypeAdapter, ValidationError

from server.facts.log import AnyEntry
from server.facts.noun import Noun
from server.facts.passage import Correction
from server.facts.recorded import Recorded

_FIXED = frozenset({"id", "kind", "device", "boot", "seq", "mono_ms", "device_time"})


class Corrections:
    """All corrections known, by the entry they mend, in the order in which they were written."""

    def __init__(self, recorded: Iterable[Recorded]) -> None:
        self._every = sorted((each for each in recorded if isinstance(each.entry, Correction)), key=_written)
        found = self._every
        withdrawn = {each.entry.of for each in found if isinstance(each.entry, Correction) and each.entry.withdraw}
        self._of: Mapping[str, list[Correction]] = defaultdict(list)
        for each in found:
            if isinstance(each.entry, Correction) and each.entry.id not in withdrawn:
                self._of[each.entry.of].append(each.entry)

    def with_more(self, recorded: Iterable[Recorded]) -> tuple["Corrections", set[str]]:
        """Give the corrections with further ones told, and the entries that may stand otherwise for it."""
        more = [each for each in recorded if isinstance(each.entry, Correction)]
        if not more:
            return self, set()
        found = Corrections([*self._every, *more])
        named = {each.of for each in Corrections(more)._told()}
        return found, named | {each.of for each in found._told() if each.id in named}

    def _told(self) -> Iterator[Correction]:
        return (each.entry for each in self._every if isinstance(each.entry, Correction))

    def applied(self, recorded: Sequence[Recorded]) -> list[Recorded]:
        """Give the entries as they stand, without corrections themselves and without what was withdrawn."""
        # Asking a noun whether it is one goes through all its kind, and hardly any entry is ever mended.
        standing = [each for each in recorded if type(each[3]) is not Correction]
        if not any(each[3].id in self._of for each in standing):
            return standing
        return [mended for each in standing if (mended := self._mended(each)) is not None]

    def _mended(self, recorded: Recorded) -> Recorded | None:
        for correction in self._of.get(recorded.entry.id, ()):
            if correction.withdraw:
                return None
            recorded = recorded._replace(entry=_changed(recorded.entry, correction.change))
        return recorded


def _changed(entry: AnyEntry, change: Mapping[str, Any]) -> AnyEntry:
    """A change that does not fit the entry was taken into the record, but there is nothing it could mend."""
    noun: type[AnyEntry] = type(entry)
    update: dict[str, Any] = {}
    for name, value in change.items():
        if name in _FIXED or name not in noun.model_fields:
            continue
        try:
            read = _reader(noun, name).validate_python(value)
        except ValidationError:
            continue
        update[name] = {**getattr(entry, name), **read} if name == "values" else read
    return entry.model_copy(update=update)


@cache
def _reader(noun: type[Noun], name: str) -> TypeAdapter[Any]:
    field = noun.model_fields[name]
    plain: Any = field.annotation
    return TypeAdapter(Annotated[(plain, *field.metadata)] if field.metadata else plain)


def _written(recorded: Recorded) -> tuple[int, str, int]:
    """When it was tapped, by a clock as far off as it was at its sending; a device's own count where that is equal."""
    entry = recorded.entry
    off_ms = 0 if recorded.sent_ms is None else recorded.sent_ms - recorded.received_ms
    return entry.device_time - off_ms, entry.device, entry.seq
