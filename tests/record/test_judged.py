"""The short form of a verdict is what the JSON writer would write of it, up to the last there is to tell."""

import json
from itertools import product

import pytest

from server.facts.judged import Severity, Verdict, Word
from server.record.judged import Judged, pack, unpack

SUBJECT = "F-1/J1#1"
VALUES = (None, "", 'straw "5"', 1.5, -0.0, 1e22, float("inf"), 3, True)


def short_form(verdict: Verdict) -> list[object]:
    """The form as it is agreed: what stands behind the last thing told is left out."""
    told = [verdict.question, list(Word).index(verdict.word), "" if verdict.subject == SUBJECT else verdict.subject]
    told += [verdict.value, verdict.unit, verdict.low, verdict.high]
    while told[-1] is None or told[-1] == "":
        told.pop()
    return told


@pytest.mark.parametrize("subject", [SUBJECT, "F-1/J2#1", 'Läufer \\ "2"'])
def test_it_is_what_the_writer_writes(subject: str):
    """Whole numbers, open ends, words with marks in them: byte for byte, whatever was written before."""
    for value, unit, low, high in product(VALUES, ("", "°C"), (None, 5, 5.0, 0.0), (None, 7.0, 7)):
        word = Word.NOT_ASKED if value is None else Word.WITHIN
        verdict = Verdict("heat-é", subject, word, Severity.NOTE, "", value=value, unit=unit, low=low, high=high)
        written = json.dumps([short_form(verdict)], ensure_ascii=False, separators=(",", ":"))
        packed = pack(Judged(SUBJECT, "frame", "F-1", (verdict,)))
        assert packed.words == written
        assert packed.findings == {}


@pytest.mark.parametrize("first", [0.0, -0.0])
def test_zero_is_written_as_zero_whichever_came_first(first: float):
    """An end at minus zero and one at zero are one limit, so their bytes do not hang on the order of judging."""
    unit = f"mm{first}"
    told = [
        Verdict("q", SUBJECT, Word.WITHIN, Severity.NOTE, "", value=1.0, unit=unit, low=low) for low in (first, -first)
    ]
    assert [pack(Judged(SUBJECT, "frame", "F-1", (each,))).words for each in told] == [
        f'[["q",0,"",1.0,"{unit}",0.0]]'
    ] * 2


def test_nothing_asked_is_written_of_the_subject_it_stands_under():
    """A verdict that names no subject is packed, and read back, as one about the subject it stands under."""
    unasked = Verdict("q", "", Word.NOT_ASKED, Severity.NOTE, "")
    named = unasked._replace(subject=SUBJECT)
    packed = [pack(Judged(SUBJECT, "frame", "F-1", (each, each))) for each in (unasked, named)]
    assert packed[0] == packed[1]
    assert unpack(SUBJECT, packed[0].words) == (named, named)
