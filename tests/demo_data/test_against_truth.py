"""The comparison with the answer key bites: a finding less, a decoy flagged, a fact withheld, an unknown question."""

from collections.abc import Callable
from typing import Any

import pytest

from server.facts.recorded import Recorded
from server.judgement.book import THEN
from tests.demo_data.against_truth import Against, Found, against, in_shop_time
from tests.demo_data.judged import JudgedShop, written_shop

ZONE = "Europe/Copenhagen"
ROW = {"incident": "I-01", "subject": "X-1/J1#1", "question": "purge-o2", "verdict": "outside", "severity": "decide",
       "book": "then"}  # fmt: skip
FOUND = Found("X-1/J1#1", "purge-o2", "outside", "decide")
DECOY = {"incident": "I-01", "subject": "X-1/J2#1", "question": "purge-o2", "book": "then", "why": "good gas"}
QUESTIONS = ["purge-o2", "fusions"]


def held(found: list[Found], decoy: dict[str, str] = DECOY, row: dict[str, str] = ROW) -> Against:
    return against(found, [row], [decoy], QUESTIONS, ZONE)


def test_what_is_planted_and_found_is_good():
    """A finding of the row's word and severity, and nothing on the decoy, is what is asked for."""
    assert held([FOUND]).good
    assert held([FOUND]).asked == 1


@pytest.mark.parametrize(
    ("found", "instead"),
    [([], ""), ([FOUND._replace(word="unknown")], "unknown decide"),
     ([FOUND._replace(severity="stop")], "outside stop"), ([FOUND._replace(subject="X-1/J1#2")], "")],
)  # fmt: skip
def test_a_row_not_found_as_told_is_missing(found: list[Found], instead: str):
    """No finding, another word, another severity or another attempt is no finding of it, and the table says so."""
    compared = held(found)
    assert not compared.good
    assert [(each.row, each.instead) for each in compared.missing] == [(ROW, instead)]
    assert "missing {" in compared.table("")


@pytest.mark.parametrize("word", ["outside", "unknown"])
def test_a_flagged_decoy_is_seen(word: str):
    """A decoy that is outside or unknown spoils it; marginal does not."""
    flagged = FOUND._replace(subject="X-1/J2#1", word=word)
    assert held([FOUND, flagged]).flagged == [flagged]
    assert not held([FOUND, flagged]).good
    assert held([FOUND, flagged._replace(word="marginal")]).good


@pytest.mark.parametrize(
    ("pattern", "question", "found"),
    [("X-2/*", "purge-o2", "X-2/J2#1|purge-o2"), ("X-1/J2#1", "*", "X-1/J2#1|fusions"),
     ("X-1/J2#1", "*", "X-1/J2#1:q3|fusions"), ("L-P@*", "*", "L-P@2025-03-19T15:05:01Z|purge-o2"),
     ("X-1/J2#1:q3", "fusions", "X-1/J2#1:q3|fusions")],
)  # fmt: skip
def test_a_decoy_may_hold_for_many(pattern: str, question: str, found: str):
    """A star stands for every subject or question, and what is said of a joint holds for its quarters."""
    subject, _, asked = found.partition("|")
    flagged = [FOUND, Found(subject, asked, "outside", "note")]
    compared = held(flagged, DECOY | {"subject": pattern, "question": question})
    assert [each.question for each in compared.flagged] == [asked]
    assert held(flagged, DECOY | {"subject": f"Y{pattern}", "question": question}).flagged == []


def test_a_question_nothing_answers_is_named():
    """A row about a question no rule asks cannot be found, and is told as such rather than as missing alone."""
    compared = held([FOUND], row=ROW | {"question": "weld-singing"})
    assert compared.unasked == ["weld-singing"]
    assert "nothing answers 'weld-singing'" in compared.table("")


def test_what_is_found_beside_is_told():
    """A finding that nobody planted is listed, though it is neither missing nor a decoy."""
    more = Found("X-9/J1#1", "fusions", "outside", "note")
    assert held([FOUND, more]).beside == [more]


@pytest.mark.parametrize(
    ("subject", "told"),
    [("L-P@2025-03-19T15:05:01Z", "L-P@2025-03-19T16:05"), ("M@2025-09-30T05:20:00Z", "M@2025-09-30T07:20"),
     ("M@2025-12-31T23:30:00Z", "M@2026-01-01T00:30"), ("L-T@2025-01-10", "L-T@2025-01-10"),
     ("X-1/J1#1:q3", "X-1/J1#1:q3"), ("X-1@release", "X-1@release")],
)  # fmt: skip
def test_moments_are_told_in_shop_time(subject: str, told: str):
    """A moment is turned to the shop's own minute in winter, in summer and over midnight; a day stays a day."""
    assert in_shop_time(subject, ZONE) == told


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> JudgedShop:
    """The small shop, read once."""
    return written_shop(tmp_path_factory.mktemp("less") / "small", "small", "first")


def is_failed_bead(entry: Any) -> bool:
    return entry.kind == "bead" and entry.result == "failed"


def is_bad_cylinder(entry: Any) -> bool:
    return entry.kind == "cylinder" and entry.on == "AR-0317"


def is_early_tack(entry: Any) -> bool:
    return entry.kind == "tack" and (entry.frame, entry.joint) == ("MT-0087", "J04")


def is_late_reading(entry: Any) -> bool:
    return entry.kind == "sleeve" and entry.sleeve == "FT-0192" and entry.act == "checked"


def is_cross_check(entry: Any) -> bool:
    return entry.kind == "check" and entry.check == "cross" and entry.result == "failed"


@pytest.mark.parametrize(
    ("fact", "gone"),
    [(is_failed_bead, {"purge-bead", "held-by-failed-check", "hold-complete", "shares-cause"}),
     (is_bad_cylinder, {"o2-step"}),
     (is_early_tack, {"finished-before-covered", "released-before-covered"}),
     (is_late_reading, {"rod-class"}),
     (is_cross_check, {"cross-check", "cross-check-acted-on"})],
)  # fmt: skip
def test_a_fact_taken_out_of_the_log_makes_its_rows_missing(
    small: JudgedShop, fact: Callable[[Any], bool], gone: set[str]
):
    """Nothing is found that is not in the log: without the fact behind an incident its rows are missing."""
    compared = without(small, fact).against(THEN)
    assert gone <= {each.row["question"] for each in compared.missing}


def without(shop: JudgedShop, fact: Callable[[Any], bool]) -> JudgedShop:
    """Give the same shop with some entries never logged."""
    told = (shop.known.shared, *shop.known.of_frame.values())
    assert any(fact(each.entry) for entries in told for each in entries)

    def left(told: list[Recorded]) -> list[Recorded]:
        return [each for each in told if not fact(each.entry)]

    return JudgedShop(shop.folder, shop.known.only(left))


def test_the_small_shop_is_found_whole(small: JudgedShop):
    """The shop the demo serves holds all of its own part of the key, by the book of then and of today."""
    for book in (THEN, small.today()):
        compared = small.against(book)
        print("\n" + compared.table(f"small shop, book of {book.name}"))
        assert compared.good, compared.table(book.name)
        assert not compared.beside
