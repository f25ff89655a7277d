"""Judging: occasions in, verdicts out, one per subject and question, the worst of a joint's passes standing for it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion import Occasion
from server.facts.occasion_frame import FrameOccasion, SignedOccasion
from server.judgement.book import Book
from server.judgement.levels import LEVELS
from server.judgement.rule import Rule

_RANK = {Word.NOT_ASKED: 0, Word.WITHIN: 1, Word.MARGINAL: 2, Word.UNKNOWN: 3, Word.OUTSIDE: 4}
_WEIGHT = {Severity.NOTE: 0, Severity.DECIDE: 1, Severity.STOP: 2}
Found = dict[tuple[str, str], Verdict]


def judge(occasion: Occasion, book: Book) -> list[Verdict]:
    """Give the verdicts on one occasion."""
    return judge_all((occasion,), book)


def judge_all(occasions: Iterable[Occasion], book: Book) -> list[Verdict]:
    """Give the verdicts on many occasions; passes of one joint and attempt answer together."""
    by_type = _by_type(book.rules)
    found: Found = {}
    frames: list[FrameOccasion] = []
    for occasion in occasions:
        for rule in by_type.get(type(occasion), ()):
            _put(found, rule, occasion)
        if type(occasion) is FrameOccasion and occasion.release is not None:
            frames.append(occasion)
    for signed in [_signed(frame, found) for frame in frames]:
        for rule in by_type.get(SignedOccasion, ()):
            _put(found, rule, signed)
    return list(found.values())


def _put(found: Found, rule: Rule, occasion: Occasion) -> None:
    for verdict in _answers(rule, occasion):
        key = (verdict.subject, verdict.question)
        known = found.get(key)
        found[key] = verdict if known is None else _worse(known, verdict)


def _answers(rule: Rule, occasion: Occasion) -> Sequence[Verdict]:
    try:
        answer = rule.judge(rule, occasion)
        return (answer,) if isinstance(answer, Verdict) else tuple(answer)
    except Exception as broken:
        # A broken rule is never a pass, and never keeps the others from answering.
        said = f"This could not be judged ({type(broken).__name__}: {broken}); tell whoever keeps the rules."
        return (rule.unknown(occasion.subject, said),)


def _worse(known: Verdict, other: Verdict) -> Verdict:
    """The worse of two answers to one question, resting on the entries of both where both are findings."""
    worse, milder = (known, other) if _badness(known) >= _badness(other) else (other, known)
    if _RANK[milder.word] < _RANK[Word.MARGINAL]:
        return worse
    return worse._replace(rests_on=tuple(dict.fromkeys((*worse.rests_on, *milder.rests_on))))


def _badness(verdict: Verdict) -> tuple[int, int, bool, float]:
    rank = _RANK[verdict.word]
    return rank, (_WEIGHT[verdict.severity] if rank > 1 else 0), verdict.proved, _beyond(verdict)


def _beyond(verdict: Verdict) -> float:
    value = verdict.value
    if not isinstance(value, float):
        return 0.0
    low = verdict.low - value if verdict.low is not None else 0.0
    high = value - verdict.high if verdict.high is not None else 0.0
    return max(low, high)


def _signed(frame: FrameOccasion, found: Found) -> SignedOccasion:
    release = frame.release
    late = release.late if release else frozenset()
    own = (f"{frame.frame}/", f"{frame.frame}@")
    verdicts = tuple(each for each in found.values() if each.subject.startswith(own)) if late else ()
    permission = release.permission if release else ""
    return SignedOccasion(f"{frame.frame}@release", permission, late, verdicts)


@lru_cache(maxsize=8)
def _by_type(rules: tuple[Rule, ...]) -> Mapping[type, list[Rule]]:
    found: dict[type, list[Rule]] = defaultdict(list)
    for rule, occasion in _pairs(rules):
        found[occasion].append(rule)
    return found


def _pairs(rules: tuple[Rule, ...]) -> Iterator[tuple[Rule, type]]:
    return ((rule, LEVELS[rule.level]) for rule in rules)
