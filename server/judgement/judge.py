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
    by_type = _by_type(book.rules)
    found: Found = {}
    frames: list[FrameOccasion] = []
    for occasion in occasions:
        _ask(by_type.get(type(occasion), ()), occasion, found)
        if type(occasion) is FrameOccasion and occasion.release is not None:
            frames.append(occasion)
    for signed in [_signed(frame, found) for frame in frames]:
        _ask(by_type.get(SignedOccasion, ()), signed, found)
    return [verdict for of_subject in found.values() for verdict in of_subject.values()]


def _ask(rules: Iterable[Asked], occasion: Occasion, found: Found) -> None:
    subject = occasion.subject
    own = found.setdefault(subject, {})
    for judge_one, rule in rules:
        try:
            answer = judge_one(rule, occasion)
            answers = (answer,) if isinstance(answer, Verdict) else tuple(answer)
        except Exception as broken:
            answers = (_broken(rule, subject, broken),)
        for verdict in answers:
            about = own if verdict.subject == subject else found.setdefault(verdict.subject, {})
            question, word = verdict.question, verdict.word
            known = about.get(question)
            if known is None or known.word is _NOT_ASKED:
                about[question] = verdict
            elif word is not _NOT_ASKED and not known.word is word is _WITHIN:
                about[question] = _worse(known, verdict)


def _broken(rule: Rule, subject: str, broken: Exception) -> Verdict:
    """A broken rule is never a pass, and never keeps the others from answering."""
    said = f"This could not be judged ({type(broken).__name__}: {broken}); tell whoever keeps the rules."
    return rule.unknown(subject, said)


def _worse(known: Verdict, other: Verdict) -> Verdict:
    """The worse of two answers to one question, resting on the entries of both where both are findings."""
    worse, milder = (known, other) if badness(known) >= badness(other) else (other, known)
    if milder.word in (_WITHIN, _NOT_ASKED):
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
