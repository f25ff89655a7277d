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
Found = dict[str, dict[str, Verdict]]
Asked = tuple[Callable[[Rule, Any], Answer], Rule]


def judge(occasion: Occasion, book: Book) -> list[Verdict]:
    """Give the verdicts on one occasion."""
    return judge_all((occasion,), book)


def judge_all(occasions: Iterable[Occasion], book: Book) -> list[Verdict]:
    """Give the verdicts on many occasions; passes of one joint and attempt answer together."""
    found = judge_by_subject(occasions, book)
    return [verdict for of_subject in found.values() for verdict in of_subject.values()]


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
    for judge_one, rule in rules:
        try:
            answer = judge_one(rule, occasion)
            if not isinstance(answer, Verdict):
                answer = tuple(answer)
        except Exception as broken:
            answer = _broken(rule, subject, broken)
        # The common case first and shortest: one answer, about the occasion's own subject.
        if isinstance(answer, Verdict) and answer[1] == subject:
            question = answer[0]
            if question not in own:
                own[question] = answer
            elif answer[2] is not _NOT_ASKED:
                own[question] = _worse(own[question], answer)
        else:
            _put(found, (answer,) if isinstance(answer, Verdict) else answer)


def _put(found: Found, answers: Iterable[Verdict]) -> None:
    for verdict in answers:
        about = found.setdefault(verdict.subject, {})
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
    verdicts = tuple(verdict for subject in subjects for verdict in found[subject].values())
    permission = release.permission if release else ""
    return SignedOccasion(f"{frame.frame}@release", permission, late, verdicts)


@lru_cache(maxsize=8)
def _by_type(rules: tuple[Rule, ...]) -> Mapping[type, list[Asked]]:
    found: dict[type, list[Asked]] = defaultdict(list)
    for rule in rules:
        found[LEVELS[rule.level]].append((rule.judge, rule))
    return found
