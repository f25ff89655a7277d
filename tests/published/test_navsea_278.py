"""NAVSEA S9074-AR-GIB-010/278 (public release), read in excerpts: gas on the backside, and a record without blanks.

Printed: backside gas unless the backside is shown to stay under 500 °F until welding is complete. § 4.1.3.1: items that
do not apply are marked N.A., never left blank, and final acceptance waits until every item is marked.
"""

import pytest

from server.facts.finding import Finding
from server.facts.judged import Word
from server.facts.progress import FrameProgress, JointProgress
from server.facts.published_shielding import shielding_figures
from server.judgement.book import RULES
from server.judgement.gates import AtTheGate, why_shut
from server.judgement.matters import matters
from server.physics.units import read_quantity
from tests.judgement.case_page import Case

WELDED = FrameProgress(joints={"A2": JointProgress(finished=True)})
BLANK = "2031-04-02 09:00 pass A2 root\n2031-04-02 10:00 release A2 who=QUI"
LOOKS = {"marked": "0", "N.A.": '"no access" "the collar is in the way"'}


@pytest.mark.parametrize(("backside_c", "needed"), [(259.0, False), (261.0, True)])
def test_gas_on_the_backside(backside_c: float, needed: bool):
    """500 °F are 260 °C: gas may be left out at 259 °C and is required at 261 °C."""
    assert read_quantity("backside", "500 °F", "°C") == pytest.approx(shielding_figures().backside_under_c)
    assert shielding_figures().needs_backing_gas(backside_c) is needed


def _word_and_gate(log: str) -> tuple[Word, list[str]]:
    case = Case("inside-colour", "a record", log, (), {})
    verdict = case.verdicts(tuple(rule for rule in RULES if rule.id == "inside-colour"))["X1/A2#1"]
    told = matters([Finding(verdict, "X1", 1, "then")] if verdict.word not in (Word.WITHIN, Word.NOT_ASKED) else [], [])
    at = AtTheGate("final inspection", ("A2",), WELDED, told, ())
    return verdict.word, [reason.words for reason in why_shut(at)]


def test_an_item_left_blank():
    """A look that was asked for and is not there is no pass: the final inspection stays shut."""
    word, why = _word_and_gate(BLANK)
    assert word is Word.UNKNOWN
    assert len(why) == 1


@pytest.mark.parametrize(("marked", "word"), [("marked", Word.WITHIN), ("N.A.", Word.NOT_ASKED)])
def test_every_item_marked(marked: str, word: Word):
    """With the item marked, or marked as not to be had with its reason, the final inspection opens."""
    look = f"2031-04-02 09:10 look A2 inside {LOOKS[marked]}"
    assert _word_and_gate(f"{BLANK.splitlines()[0]}\n{look}\n{BLANK.splitlines()[1]}") == (word, [])
