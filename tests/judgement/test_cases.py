"""Every rule against its page of cases, and every page against the five words."""

import pytest

from server.judgement.book import RULES
from tests.judgement.case_page import WORDS, Case, differences, pages, read_page, rules_for

CASES = [(page, case) for path in pages() for page, cases in [read_page(path)] for case in cases]


@pytest.mark.parametrize(("page", "case"), CASES, ids=[f"{case.rule}: {case.name}" for _, case in CASES])
def test_a_case(page: dict, case: Case):
    """What the page says must be found is what the rule finds, from the log on."""
    assert differences(case, rules_for(page)) == []


def test_every_rule_has_its_page():
    """Each rule of the book has a page of cases under its own id, and no page is about a rule that is gone."""
    assert sorted(path.stem for path in pages()) == sorted(rule.id for rule in RULES)


@pytest.mark.parametrize("path", pages(), ids=[path.stem for path in pages()])
def test_a_page_shows_every_word(path):
    """A page has a case for each of the five words, or says why its rule never answers with it."""
    page, cases = read_page(path)
    shown = {expected.word for case in cases for expected in case.find}
    assert set(WORDS) - shown - set(page.get("never", {})) == set()
    assert not shown & set(page.get("never", {}))


@pytest.mark.parametrize("path", pages(), ids=[path.stem for path in pages()])
def test_a_page_shows_its_limit_from_both_sides(path):
    """A page with an instrument's reading has a case on the limit itself, named so."""
    _, cases = read_page(path)
    if any(expected.word == "marginal" for case in cases for expected in case.find):
        assert any("on the limit" in case.name for case in cases)
