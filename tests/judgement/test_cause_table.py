"""A word on a cause rests on entries or names what is missing; one missing reading is enough for silence."""

import pytest

from server.facts.judged import Word
from server.judgement.book import RULES
from server.judgement.cause_table import MISSING, NEEDED, Witness, cause_table
from server.judgement.causes import CAUSES


def good(question: str) -> Witness:
    return Witness(question, Word.WITHIN, "read and good", (f"entry of {question}",))


def word(cause: str, *told: Witness, watched: tuple[str, ...] = ()):
    return next(each for each in cause_table(told, {cause: watched}) if each.cause == cause)


def test_there_is_a_word_on_every_cause():
    """The table answers for all causes in their order, and knows what each would need to be excluded."""
    assert [each.cause for each in cause_table((), {})] == list(CAUSES) == list(NEEDED)
    assert {each.says for each in cause_table((), {})} == {"silent"}


def test_every_needed_question_is_asked_by_a_rule_or_has_words():
    """No cause waits for a question nobody asks."""
    known = {rule.id for rule in RULES} | MISSING.keys() | {"hidden seam"}
    assert {question for needed in NEEDED.values() for question in needed} <= known


@pytest.mark.parametrize("cause", list(CAUSES))
def test_all_good_excludes_and_any_one_gone_is_silent(cause: str):
    """With every needed reading good it is excluded; with any one of them gone it is silent and named."""
    needed = NEEDED[cause]
    assert word(cause, *map(good, needed)).says == "excludes"
    for gone in needed:
        left = word(cause, *(good(each) for each in needed if each != gone))
        assert (left.says, left.missing) == ("silent", (MISSING.get(gone, gone),))


def test_something_outside_supports_and_rests_on_its_entry():
    """A failed question that is watched for a cause speaks for it, whatever else was good."""
    bad = Witness("bead failed", Word.OUTSIDE, "the bead was grey", ("B-1",))
    found = word("C15", good("fit-up-gap"), bad, watched=("bead failed",))
    assert (found.says, found.because) == ("supports", (bad,))


@pytest.mark.parametrize("said", [Word.UNKNOWN, Word.MARGINAL, Word.NOT_ASKED])
def test_what_is_not_known_good_excludes_nothing(said: Word):
    """Unknown, too close to tell, and never asked all leave the record silent."""
    assert word("C15", Witness("fit-up-gap", said, "", ("G-1",))).says == "silent"


def test_an_answer_that_rests_on_nothing_excludes_nothing():
    """A good answer without an entry behind it is no evidence."""
    assert word("C15", Witness("fit-up-gap", Word.WITHIN, "good")).says == "silent"


def test_no_word_says_caused():
    """The table never says that something caused it."""
    assert {each.says for each in cause_table([good("fit-up-gap")], {})} <= {"supports", "excludes", "silent"}
