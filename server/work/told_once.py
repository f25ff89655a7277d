"""Tells a paper once: the very same told again, by a click twice or by going back and sending anew, adds nothing."""

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from pydantic import ValidationError

from server.facts.noun import Noun
from server.facts.register_line import REGISTER_LINE
from server.record.written import Written
from server.work.refusal import Refusal
from server.work.telling import told_line


class ToldBefore(str):
    """The id of what was told before in the very same words; nothing was recorded a second time."""

    __slots__ = ()


class DoneBefore(Refusal):
    """The very same was done before by an entry, which stands; nothing was added."""


def told_once(
    paper: Mapping[str, Any], known: Iterable[Noun], now_ms: int, but: Collection[str] = ()
) -> Written[str]:
    """Append a paper and answer its id; where one of those known says the same, answer that one's instead.

    `but` names what is the moment's and not the sender's: the record position, the time of writing.
    """
    before = told_before(paper, known, but)
    if before is not None:
        return Written(answer=lambda _: before)
    return Written(answer=lambda _: str(paper["id"]), lines=(told_line(dict(paper), now_ms),))


def told_before(paper: Mapping[str, Any], known: Iterable[Noun], but: Collection[str] = ()) -> ToldBefore | None:
    """Give the paper that says the same, signed by the same people in the same roles; none where there is none."""
    try:
        new = REGISTER_LINE.validate_python(dict(paper))
    except ValidationError:
        # Nothing like it can have been told.
        return None
    names = [name for name in type(new).model_fields if name not in {"id", "kind", "signatures", *but}]
    found = next((each for each in known if _say_the_same(new, each, names)), None)
    return None if found is None else ToldBefore(found.told("id"))


def _say_the_same(one: Noun, other: Noun, names: Iterable[str]) -> bool:
    return all(one.told(name) == other.told(name) for name in names) and _signers(one) == _signers(other)


def _signers(paper: Noun) -> list[tuple[str, str, str]]:
    return sorted((each.person, each.role, each.meaning) for each in paper.told("signatures") or ())
