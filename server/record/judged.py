"""What a judging said of one subject, packed for keeping: every word shortly, and in full what somebody must read."""

import json
from collections.abc import Iterable, Mapping
from functools import lru_cache
from hashlib import sha256
from math import isfinite
from typing import NamedTuple

from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word

_WORDS = tuple(Word)
_CODES = {word.value: code for code, word in enumerate(_WORDS)}
# Compared by what they are: looking a word up costs a call of its own, and there are hundreds of thousands.
_WITHIN, _NOT_ASKED = Word.WITHIN, Word.NOT_ASKED
_KEPT_SHORT = (_CODES[_WITHIN.value], _CODES[_NOT_ASKED.value])
_new = tuple.__new__
_WRITER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))


class Judged(NamedTuple):
    """All verdicts about one subject, its level (pass, joint, frame, line ...) and its frame where it has one."""

    subject: str
    level: str
    frame: str | None
    verdicts: tuple[Verdict, ...]

    @property
    def findings(self) -> list[Verdict]:
        """The verdicts somebody must read."""
        return [each for each in self.verdicts if each[2] is not _WITHIN and each[2] is not _NOT_ASKED]


class Packed(NamedTuple):
    """An occasion's verdicts as they are kept, and a digest that changes when anything of them does."""

    words: str
    findings: dict[str, str]
    digest: bytes


def pack(judged: Judged) -> Packed:
    """Pack the words of all verdicts with value and limit, and each finding in full under its key."""
    subject = judged.subject
    # Half of all that is said is that nothing was asked: the same few words over and over, about no subject by name.
    told = [_shortly(each, subject) if each[1] else _unasked(each[0]) for each in judged.verdicts]
    words = f"[{','.join(told)}]"
    findings = {verdict.key: _WRITER.encode(verdict) for verdict in judged.findings}
    return Packed(words, findings, sha256("\n".join((words, *findings.values())).encode()).digest())


class Said(NamedTuple):
    """What is kept of one subject: its packed words, and the findings as key, question, word, severity and text."""

    subject: str
    level: str
    frame: str | None
    words: str
    digest: bytes
    findings: tuple[tuple[str, str, str, str, str], ...]


def said_of(judged: Judged) -> Said:
    """Pack a subject whole."""
    packed = pack(judged)
    findings = tuple(
        [(v.key, v.question, v.word.value, v.severity.value, packed.findings[v.key]) for v in judged.findings]
        if packed.findings
        else ()
    )
    return _new(Said, (judged.subject, judged.level, judged.frame, packed.words, packed.digest, findings))


def unpack(subject: str, words: str, findings: Iterable[Verdict] = ()) -> tuple[Verdict, ...]:
    """Give the verdicts back: a finding in full, the rest with word, value and limit but without a message."""
    full = {verdict.key: verdict for verdict in findings}
    short = (_from_short(subject, *each) for each in json.loads(words))
    return tuple(full.get(verdict.key, verdict) for verdict in short)


def read_finding(text: str, frame: str | None, known_at: int, book: str) -> Finding:
    """Give a finding back from its row."""
    fields = dict(zip(Verdict._fields, json.loads(text), strict=False))
    fields |= {"word": Word(fields["word"]), "severity": Severity(fields["severity"])}
    fields |= {name: tuple(fields[name]) for name in ("allowed", "rests_on")}
    return Finding(Verdict(**fields), frame, known_at, book)


ASKED_BY = ("key", "question", "word", "severity")
"""The columns a finding is asked by, which its own text tells too."""


def asked_as(text: str) -> tuple[str, str, str, str] | None:
    """Give from a finding's text what its columns should say; none where it cannot be read."""
    try:
        question, subject, word, severity = json.loads(text)[:4]
    except (TypeError, ValueError):
        return None
    return f"{subject}|{question}", question, word, severity


def digest_of_kept(subject: str, words: str, texts: Mapping[str, str]) -> bytes:
    """Make the digest anew from what is kept: the packed words, and the findings by their keys."""
    # Of most nothing more is kept than that it is well, so nothing more is made of it.
    told = (each for each in json.loads(words) if each[1] not in _KEPT_SHORT)
    keys = (_from_short(subject, *each).key for each in told)
    return sha256("\n".join((words, *(texts.get(key, "") for key in dict.fromkeys(keys)))).encode()).digest()


def _shortly(verdict: Verdict, subject: str) -> str:
    """Write a verdict's question and word and, up to the last there is, its own subject, value, unit, low and high."""
    question, about, word, _, _, value, unit, low, high = verdict[:9]
    head = _head(question, word._value_)
    own_subject = "" if about == subject else about
    limit = _limit(unit, low, high) if unit or low is not None or high is not None else ""
    if not limit and (value is None or value == ""):
        return f"{head},{_WRITER.encode(own_subject)}]" if own_subject else f"{head}]"
    # The writer writes a number the same way, only with more ado.
    told = repr(value) if type(value) is float and isfinite(value) else _WRITER.encode(value)
    return f"{head},{_WRITER.encode(own_subject)},{told}{limit}]" if own_subject else f'{head},"",{told}{limit}]'


@lru_cache(1024)
def _unasked(question: str) -> str:
    return f"{_head(question, _NOT_ASKED.value)}]"


# Of these there are as many as questions and limits, while verdicts are written by the hundred thousand.
@lru_cache(1024)
def _head(question: str, word: str) -> str:
    return _WRITER.encode([question, _CODES[word]])[:-1]


@lru_cache(4096, typed=True)
def _limit(unit: str, low: float | None, high: float | None) -> str:
    # Zero and minus zero are one key here, so both are written the same way, whichever came first.
    told = [unit, *(abs(end) if end == 0 else end for end in (low, high))]
    while told[-1] is None or told[-1] == "":
        told.pop()
    return "".join(f",{_WRITER.encode(each)}" for each in told)


def _from_short(
    subject: str,
    question: str,
    code: int,
    own_subject: str = "",
    value: float | str | None = None,
    unit: str = "",
    *bounds: float | None,
) -> Verdict:
    low, high = (*bounds, None, None)[:2]
    return Verdict(
        question, own_subject or subject, _WORDS[code], Severity.NOTE, "", value=value, unit=unit, low=low, high=high
    )
