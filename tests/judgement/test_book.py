"""The book as a whole."""

import re

from server.facts.acceptance_kinds import ACCEPTANCE_KINDS
from server.facts.limit_kinds import LIMIT_KINDS
from server.judgement.book import RULES


def test_no_two_rules_bear_one_id():
    """Decisions point at findings by question, so each question is asked by one rule."""
    ids = [rule.id for rule in RULES]
    assert len(ids) == len(set(ids)) >= 40


def test_every_limit_a_rule_reads_is_one_the_shop_can_write():
    """A rule's limit is a kind of limit of a written procedure or a figure of the acceptance file."""
    named = {rule.limit for rule in RULES if rule.limit}
    assert named - LIMIT_KINDS.keys() - ACCEPTANCE_KINDS.keys() == set()


def test_every_acceptance_figure_is_read_by_a_rule_or_a_look_up():
    """No figure can be written into the acceptance file that nothing reads."""
    of_doubts = {"setting_uncertainty", "seam_uncertainty"}
    looked_up = of_doubts | {"edge_band", "oxygen_step_readings", "cross_check_opens_a_set", "sample_audit"}
    assert ACCEPTANCE_KINDS.keys() - {rule.limit for rule in RULES} - looked_up == set()


def test_questions_are_questions():
    """Every rule asks in a sentence that ends with a question mark, and says why, what to do, what it cannot tell."""
    for rule in RULES:
        assert re.fullmatch(r"[A-Z].*\?", rule.asks), rule.id
        assert all(text.endswith((".", "!")) for text in (rule.why, rule.do, rule.cannot_tell)), rule.id
