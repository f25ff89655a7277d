"""The page written from the book."""

from pathlib import Path

from server.judgement.book import RULES
from server.judgement.causes import CAUSES
from server.judgement.described import rules_page

DOCS = Path(__file__).resolve().parents[2] / "docs"


def test_the_page_is_up_to_date():
    """`docs/rules.md` says what the book says now; `python3 -m server rules` writes it anew."""
    assert (DOCS / "rules.md").read_text(encoding="utf-8") == rules_page()


def test_every_rule_is_told_in_full():
    """Each rule stands under its own heading with its question, its reason, what to do and what it cannot tell."""
    page = rules_page()
    for rule in RULES:
        part = page.partition(f"### {rule.id}\n")[2].partition("\n### ")[0]
        assert all(words in part for words in (rule.asks, rule.why, rule.do, rule.cannot_tell))


def test_every_cause_the_shop_can_prevent_is_watched_for():
    """Of the 26 causes only damage after shipping has no rule, and no rule names a cause that is not one."""
    watched = {cause for rule in RULES for cause in rule.causes}
    assert watched <= CAUSES.keys()
    assert CAUSES.keys() - watched == {"C24"}
