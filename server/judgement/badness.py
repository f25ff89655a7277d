"""Which of two answers to one question is the worse."""

from server.facts.judged import Severity, Verdict, Word

_RANK = {Word.NOT_ASKED: 0, Word.WITHIN: 1, Word.MARGINAL: 2, Word.UNKNOWN: 3, Word.OUTSIDE: 4}
_WEIGHT = {Severity.NOTE: 0, Severity.DECIDE: 1, Severity.STOP: 2}


def badness(verdict: Verdict) -> tuple[int, int, bool, float]:
    """Give what verdicts are ordered by: the word, the severity, whether it is proved, how far it lies beyond."""
    rank = _RANK[verdict.word]
    return rank, (_WEIGHT[verdict.severity] if rank > 1 else 0), verdict.proved, _beyond(verdict)


def _beyond(verdict: Verdict) -> float:
    value = verdict.value
    if not isinstance(value, float):
        return 0.0
    low = verdict.low - value if verdict.low is not None else 0.0
    high = value - verdict.high if verdict.high is not None else 0.0
    return max(low, high)
