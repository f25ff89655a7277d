"""What the house writes for itself is put into the shop's words and the shop's own time."""

import pytest

from server.facts.judged import Severity, Verdict, Word
from server.pages.frame.shop_words import asks, shop_words, shown_value


@pytest.mark.parametrize(
    ("written", "zone", "shown"),
    [
        ("north@2025-03-19T15:05:01Z", "Europe/Berlin", "north, Wed 19 Mar 2025 16:05"),
        ("north@2025-07-19T15:05:01Z", "Europe/Berlin", "north, Sat 19 Jul 2025 17:05"),
        ("in doubt since 2025-03-14T06:45:00.040Z.", "UTC", "in doubt since Fri 14 Mar 2025 06:45."),
        ("meter@2025-09-05", "UTC", "meter, 2025-09-05"),
        ("F-7/S3#1", "UTC", "F-7/S3"),
        ("see F-7/S3#2:q6, then stop", "UTC", "see F-7/S3, attempt 2, 6 o'clock, then stop"),
        ("at most 20 ppm", "UTC", "at most 20 ppm"),
    ],
)
def test_subjects_and_moments_are_said_in_shop_words(written: str, zone: str, shown: str):
    """A moment is shown by the shop's wall clock, summer and winter; a joint loses what only the record needs."""
    assert shop_words(written, zone) == shown


def test_a_value_that_only_names_an_entry_is_not_shown():
    """The id of the entry a verdict rests on tells a reader nothing; a number and a class do."""
    plain = Verdict("q", "F-7/S3#1", Word.OUTSIDE, Severity.STOP, "said", rests_on=("TAB:1:7",))
    assert shown_value(plain._replace(value="TAB:1:7")) is None
    assert shown_value(plain._replace(value="north", subject="north@2025-03-19T15:05:01Z")) is None
    assert shown_value(plain._replace(value=46.0, unit="ppm")) == "46 ppm"
    assert shown_value(plain._replace(value=7.0)) is None
    assert shown_value(plain._replace(value=3.0, high=2.0)) == "3"
    assert shown_value(plain._replace(value="ERTi-2", message="the rod says ERTi-2", allowed=("ERTi-9",))) == "ERTi-2"


def test_a_question_is_said_as_it_is_asked():
    """A page tells what a question asks; one the book no longer has is named as the paper names it."""
    assert asks("purge-o2") == "Was the purge oxygen within the limit at arc start?"
    assert asks("no-such-question") == "no-such-question"
