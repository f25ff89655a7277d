"""Checks that were due and were made or not."""

from server.facts.judged import Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.rule import Rule


def made_when_due(me: Rule, on: DueOccasion, words: str) -> Verdict | tuple[()]:
    """Give the verdict on one check that fell due for a thing in use."""
    if on.what != me.limit:
        return ()
    limit = on.accept.get(me.limit)
    if limit is None:
        return me.not_asked()
    if on.done is not None:
        return me.within(on.subject, on.done)
    return me.unknown(on.subject, f"{on.thing} was in use and {words}.", source=limit.source)
