"""Judging: occasions in, verdicts out, one per subject and question, the worst of a joint's passes standing for it."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import Any

from server.facts.judged import Verdict, Word
from server.facts.occasion import Occasion
from server.facts.occasion_frame import FrameOccasion, SignedOccasion
from server.judgement.badness import badness
from server.judgement.book import Book
from server.judgement.levels import LEVELS
from server.judgement.rule import Answer, Rule

_NOT_ASKED, _WITHIN = Word.NOT_ASKED, Word.WITHIN
_new = tuple.__new__
Found = dict[str, dict[str, Verdict]]
"""Verdicts by subject and question; where a rule asked nothing its one answer stands, which names no subject."""
Asked = tuple[Callable[[Rule, Any], Answer], Rule, Verdict]


def judge(occasion: Occasion, book: Book) -> list[Verdict]:
    """Give the verdicts on one occasion."""
    return judge_all((occasion,), book)


def judge_all(occasions: Iterable[Occasion], book: Book) -> list[Verdict]:
    """Give the verdicts on many occasions; passes of one joint and attempt answer together."""
    found = judge_by_subject(occasions, book)
    return [
        verdict if verdict[1] else named(verdict, subject)
        for subject, about in found.items()
        for verdict in about.values()
    ]


def named(verdict: Verdict, subject: str) -> Verdict:
    """Give a verdict that stands under a subject with the subject's name."""
    return verdict if verdict[1] else _new(Verdict, (verdict[0], subject, *verdict[2:]))


def judge_by_subject(occasions: Iterable[Occasion], book: Book) -> Found:
    """Give the same by subject and question."""
    by_type = _by_type(book.rules)
    found: Found = {}
    frames: list[FrameOccasion] = []
    for occasion in occasions:
        _ask(by_type.get(type(occasion), ()), occasion, found)
        if type(occasion) is FrameOccasion and occasion.release is not None:
            frames.append(occasion)
    for signed in [_signed(frame, found) for frame in frames]:
        _ask(by_type.get(SignedOccasion, ()), signed, found)
    return found


def _ask(rules: Iterable[Asked], occasion: Occasion, found: Found) -> None:
    subject = occasion.subject
    own = found.setdefault(subject, {})
    for judge_one, rule, unasked in rules:
        try:
            answer = judge_one(rule, occasion)
            if answer is unasked:
                own.setdefault(unasked[0], unasked)
                continue
            if not isinstance(answer, Verdict):
                _put(found, subject, tuple(answer))
                continue
        except Exception as broken:
            answer = _broken(rule, subject, broken)
        # The common case first and shortest: one answer, about the occasion's own subject.
        if answer[1] == subject:
            known = own.get(answer[0], unasked)
            if known[2] is _NOT_ASKED:
                own[answer[0]] = answer
            elif answer[2] is not _WITHIN:
                own[answer[0]] = _worse(known, answer)
        else:
            _put(found, subject, (answer,))


def _put(found: Found, subject: str, answers: Iterable[Verdict]) -> None:
    for verdict in answers:
        about = found.setdefault(verdict.subject or subject, {})
        known = about.get(verdict.question)
        about[verdict.question] = verdict if known is None else _worse(known, verdict)


def _broken(rule: Rule, subject: str, broken: Exception) -> Verdict:
    """A broken rule is never a pass, and never keeps the others from answering."""
    said = f"This could not be judged ({type(broken).__name__}: {broken}); tell whoever keeps the rules."
    return rule.unknown(subject, said)


def _worse(known: Verdict, other: Verdict) -> Verdict:
    """The worse of two answers to one question, resting on the entries of both where both are findings."""
    word, other_word = known[2], other[2]
    if word is _NOT_ASKED:
        return other
    if other_word is _NOT_ASKED or word is other_word is _WITHIN:
        return known
    worse, milder = (known, other) if badness(known) >= badness(other) else (other, known)
    if milder.word is _WITHIN:
        return worse
    return worse._replace(rests_on=tuple(dict.fromkeys((*worse.rests_on, *milder.rests_on))))


def _signed(frame: FrameOccasion, found: Found) -> SignedOccasion:
    release = frame.release
    late = release.late if release else frozenset()
    own = (f"{frame.frame}/", f"{frame.frame}@")
    subjects = [subject for subject in found if subject.startswith(own)] if late else []
    verdicts = tuple(named(verdict, subject) for subject in subjects for verdict in found[subject].values())
    permission = release.permission if release else ""
    return SignedOccasion(f"{frame.frame}@release", permission, late, verdicts)


@lru_cache(maxsize=8)
def _by_type(rules: tuple[Rule, ...]) -> Mapping[type, list[Asked]]:
    found: dict[type, list[Asked]] = defaultdict(list)
    for rule in rules:
        found[LEVELS[rule.level]].append((rule.judge, rule, rule.unasked))
    return found
