"""Finds where words that were typed name somebody the record knows, and puts a neutral word there."""

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from server.work.everyday_words import NO_INITIALS, NOT_DOTTED
from server.work.names_known import WORD, KnownNames, Whose, folded, plain_mark

_DOTTED = re.compile(r"(?<![\w.])(?:(?:[^\W\d_]\.){1,2}[^\W\d_](?:\.|(?!\w))|[^\W\d_]\.(?:\s[^\W\d_]\.){1,2})")
_A_NUMBER_FOLLOWS = re.compile(r"-\w|\s?\d+(?![\d]|[./:]\d)")
_INITIAL_BEFORE = re.compile(r"(?<![\w.-])([^\W\d_])(?:\.\s?|\s)$")
_INITIAL_AFTER = re.compile(r"\s([^\W\d_])(?:\.|(?=\s*(?:[,;:)\]]|$)))")
_BETWEEN = re.compile(r"[\s.,]{0,2}|[-_]")
_SHORTEST = 3
_SHORTEST_WITH_S = 5


class _Found(NamedTuple):
    start: int
    end: int
    who: frozenset[str]


class Put(NamedTuple):
    """The words with nobody's name in them, and at how many places one stood."""

    words: str
    places: int


def typed_words(text: str, known: KnownNames) -> Put:
    """Take names out of what somebody typed, however they typed them; what stands for one is in square brackets."""
    found = list(_joined(_found(text, known), text))
    return _put(text, found, lambda who: f"[{known.said_for(who)}]")


def told_words(text: str, known: KnownNames) -> str:
    """Take names out of what the house or a register says, where they stand as they are registered."""
    found = list(_joined(_as_registered(text, known), text))
    return _put(text, found, known.said_for).words


def _put(text: str, found: list[_Found], said: Callable[[frozenset[str]], str]) -> Put:
    parts, at = [], 0
    for each in found:
        parts += [text[at : each.start], said(each.who)]
        at = each.end
    return Put("".join((*parts, text[at:])), len(found))


def _as_registered(text: str, known: KnownNames) -> Iterator[_Found]:
    after = 0
    for word in WORD.finditer(text):
        if word.start() < after or not _may_begin(word[0], known):
            continue
        if found := _phrase(text, word, known) or _part(word, known, spelled=True):
            after = found.end
            yield found


def _may_begin(word: str, known: KnownNames) -> bool:
    typed = folded(word)
    return typed in known.beginnings or typed[:-1] in known.beginnings


def _found(text: str, known: KnownNames) -> Iterator[_Found]:
    after = 0
    for word in WORD.finditer(text):
        if word.start() < after:
            continue
        found = _phrase(text, word, known) or _dotted(text, word, known) or _part(word, known)
        found = _with_initials(text, found, known) if found else _initials(text, word, known)
        if found:
            after = found.end
            yield found


def _phrase(text: str, word: re.Match[str], known: KnownNames) -> _Found | None:
    """A whole name, an address, an id; not a part of a longer code, as in `7-LEA`."""
    first, second = folded(word[0]), WORD.search(text, word.end())
    begun = known.phrases.get(f"{first} {folded(second[0])}", []) if second else []
    for phrase, who in (*begun, *known.phrases.get(first, ())):
        end = word.start() + len(phrase)
        there = text[word.start() : end]
        same = plain_mark(there).casefold() == plain_mark(phrase).casefold()
        if same and _as_an_id(there, phrase, known) and _alone(text, word.start(), end):
            return _Found(word.start(), end, frozenset({who}))
    return None


def _as_an_id(there: str, phrase: str, known: KnownNames) -> bool:
    plain = phrase.isalpha() and (len(phrase) <= _SHORTEST or phrase.casefold() in known.everyday)
    return there == phrase or not plain


def _alone(text: str, start: int, end: int) -> bool:
    before, behind = text[max(start - 2, 0) : start], text[end : end + 2]
    joined_before = before[-1:] == "-" and before[:1].isalnum()
    return not (
        before[-1:].isalnum() or behind[:1].isalnum() or joined_before or (behind[:1] == "-" and behind[1:].isalnum())
    )


def _dotted(text: str, word: re.Match[str], known: KnownNames) -> _Found | None:
    """`B.A.` and `B. A.`, in small letters too where those abbreviate nothing."""
    found = _DOTTED.match(text, word.start()) if len(word[0]) == 1 else None
    if not found or found[0].rstrip(".").replace(" ", "") in NOT_DOTTED:
        return None
    who = known.initials.get("".join(filter(str.isalpha, found[0])).upper())
    return _Found(*found.span(), frozenset(who)) if who else None


def _part(word: re.Match[str], known: KnownNames, *, spelled: bool = False) -> _Found | None:
    """A word of a name; what is also a word of every day, or has two letters, only as the register spells it."""
    typed = folded(word[0])
    who = {each.who for each in known.parts.get(typed, ()) if _is_it(word[0], typed, each, known, spelled=spelled)}
    if who:
        return _Found(*word.span(), frozenset(who))
    if len(typed) >= _SHORTEST_WITH_S and typed[-1] == "s" and typed[:-1] not in known.everyday:
        who = {each.who for each in known.parts.get(typed[:-1], ()) if not spelled or word[0][:-1] == each.spelled}
    return _Found(word.start(), word.end() - 1, frozenset(who)) if who else None


def _is_it(there: str, typed: str, each: Whose, known: KnownNames, *, spelled: bool) -> bool:
    if len(typed) < _SHORTEST:
        return not spelled and len(typed) > 1 and there == each.spelled and there not in NO_INITIALS | known.places
    if typed in known.everyday:
        return not spelled and there == each.spelled
    return there == each.spelled if spelled else True


def _initials(text: str, word: re.Match[str], known: KnownNames) -> _Found | None:
    """Letters by themselves, as large as they stand, that are no word, unit, element, tube, test or part of a code."""
    who = known.initials.get(word[0])
    if not who or len(word[0]) == 1 or word[0] in NO_INITIALS | known.places or word[0].casefold() in known.everyday:
        return None
    part_of_a_code = text[: word.start()].endswith("-") or _A_NUMBER_FOLLOWS.match(text, word.end())
    return None if part_of_a_code else _Found(*word.span(), frozenset(who))


def _with_initials(text: str, found: _Found, known: KnownNames) -> _Found:
    """`B. Ash` and `Bea A.`: the letter belongs to the name beside it, and may tell whose it is."""
    start, end, who = found
    before, after = _INITIAL_BEFORE.search(text, 0, start), _INITIAL_AFTER.match(text, end)
    if before and (theirs := who & _with_letter(before[1], known)):
        start, who = before.start(), theirs
    if after and (theirs := who & _with_letter(after[1], known)):
        end, who = after.end(), theirs
    return _Found(start, end, who)


def _with_letter(letter: str, known: KnownNames) -> frozenset[str]:
    return frozenset(each for letters, who in known.initials.items() if letter in letters for each in who)


def _joined(found: Iterator[_Found], text: str) -> Iterator[_Found]:
    """Words beside each other that may mean the same person are one name."""
    last: _Found | None = None
    for each in found:
        if last and (both := last.who & each.who) and _BETWEEN.fullmatch(text, last.end, each.start):
            last = _Found(last.start, each.end, both)
            continue
        if last:
            yield last
        last = each
    if last:
        yield last
