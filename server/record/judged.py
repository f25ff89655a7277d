"""What a judging said of one subject, packed for keeping: every word shortly, and in full what somebody must read."""

import json
from collections.abc import Iterable
from hashlib import sha256
from typing import Any, NamedTuple

from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word

_WORDS = tuple(Word)
_CODES = {word: code for code, word in enumerate(_WORDS)}
_SHORTLY = frozenset((Word.WITHIN, Word.NOT_ASKED))
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
        return [verdict for verdict in self.verdicts if verdict.word not in _SHORTLY]


class Packed(NamedTuple):
    """An occasion's verdicts as they are kept, and a digest that changes when anything of them does."""

    words: str
    findings: dict[str, str]
    digest: bytes


def pack(judged: Judged) -> Packed:
    """Pack the words of all verdicts with value and limit, and each finding in full under its key."""
    words = _WRITER.encode([_shortly(verdict, judged.subject) for verdict in judged.verdicts])
    findings = {verdict.key: _WRITER.encode(verdict) for verdict in judged.findings}
    return Packed(words, findings, sha256("\n".join((words, *findings.values())).encode()).digest())


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


def _shortly(verdict: Verdict, subject: str) -> list[Any]:
    question, about, word, _, _, value, unit, low, high, *_ = verdict
    own_subject = "" if about == subject else about
    if high is not None or low is not None or unit or value is not None:
        return _without_tail([question, _CODES[word], own_subject, value, unit, low, high])
    return [question, _CODES[word], own_subject] if own_subject else [question, _CODES[word]]


def _without_tail(short: list[Any]) -> list[Any]:
    while short[-1] is None or short[-1] == "":
        short.pop()
    return short


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
