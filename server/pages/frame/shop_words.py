"""Puts the house's own marks into shop words: a subject as a place, a moment inside a sentence as the wall clock."""

import re
from functools import lru_cache
from urllib.parse import quote

from server.facts.judged import Verdict
from server.facts.moment import parse_moment
from server.facts.subject import read_joint_subject
from server.judgement.book import RULES
from server.pages.frame.wording import local_moment, quantity

_MOMENT = re.compile(r"(@?)(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,3})?Z)")
_DAY = re.compile(r"@(\d{4}-\d\d-\d\d)(?!T)")
_JOINT = re.compile(r"[^\s/@#|,;]+/[^\s#:@|,;]+#\d+(?::q\d+)?")
_ASKS = {rule.id: rule.asks for rule in RULES}
_QUARTER = {"q12": "12 o'clock", "q3": "3 o'clock", "q6": "6 o'clock", "q9": "9 o'clock"}


def shop_words(text: str, zone: str) -> str:
    """Put every subject and every moment inside a sentence into the words and the zone of the shop.

    >>> shop_words("Rests on north@2025-03-19T15:05:01Z, a failed bead.", "Europe/Berlin")
    'Rests on north, Wed 19 Mar 2025 16:05, a failed bead.'
    >>> shop_words("A-1/S3#2:q12", "UTC")
    "A-1/S3, attempt 2, 12 o'clock"
    """
    placed = _JOINT.sub(lambda found: _place(found[0]), text)
    dated = _DAY.sub(lambda found: f", {found[1]}", placed)
    return _MOMENT.sub(lambda found: (", " if found[1] else "") + local_moment(parse_moment(found[2]), zone), dated)


def asks(question: str) -> str:
    """Give what a question asks; its name where the book has it no longer.

    >>> asks("no-such-question")
    'no-such-question'
    """
    return _ASKS.get(question, question)


def history_of(subject: str, frame: str) -> str:
    """Give the address of a subject's page: the joint's where it is one, else its frame's.

    >>> history_of("A-1/S3#2:q12", "A-1")
    '/history/A-1/S3'
    """
    found = read_joint_subject(subject)
    return f"/history/{quote(frame, '')}" + (f"/{quote(found.joint, '')}" if found else "")


def shown_value(verdict: Verdict) -> str | None:
    """Give the value a person can read; none where it only names an entry or repeats what the subject says.

    A number with neither unit nor limit is a grade or a count that the message says in words.
    """
    value = verdict.value
    if isinstance(value, float) and not verdict.unit and verdict.low is None and verdict.high is None:
        return None
    said = verdict.subject if verdict.allowed else f"{verdict.subject} {verdict.message}"
    if isinstance(value, str) and (value in verdict.rests_on or value in said):
        return None
    return None if value is None else quantity(value, verdict.unit)


@lru_cache(maxsize=4096)
def _place(subject: str) -> str:
    found = read_joint_subject(subject)
    if found is None:
        return subject
    attempt = f", attempt {found.attempt}" if found.attempt > 1 else ""
    quarter = f", {_QUARTER.get(found.quarter, found.quarter)}" if found.quarter else ""
    return f"{found.frame}/{found.joint}{attempt}{quarter}"
