"""Limit cards held offline by the tablet's script and online by the server give one answer."""

import json
import random
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from server.facts.limit_card import CardLine
from server.procedures.card_check import check_line
from tests.browser.scripts import run, script_page, swapped

CASES = json.loads((Path(__file__).resolve().parents[1] / "cards" / "cases.json").read_text(encoding="utf-8"))["cases"]
_JUDGE_ALL = """
return given.map(({line, value, asked}) => {
  try { const {word, proved, uncertainty} = it.checkLine(line, value, asked); return {word, proved, uncertainty}; }
  catch { return {refused: true}; }
});
"""


def by_script(browser: Browser, cases: list[dict[str, Any]], **altered: Any) -> list[dict[str, Any]]:
    page = script_page(browser, altered)
    try:
        answers: list[dict[str, Any]] = run(page, "judge_card.js", _JUDGE_ALL, cases)
    finally:
        page.close()
    return answers


def differing(browser: Browser, **altered: Any) -> list[str]:
    answers = by_script(browser, CASES, **altered)
    wanted = [case.get("answer") or {"refused": True} for case in CASES]
    return [
        case["what"]
        for case, want, answer in zip(CASES, wanted, answers, strict=True)
        if want != {name: answer.get(name) for name in want}
    ]


def by_server(case: dict[str, Any]) -> dict[str, Any]:
    line = CardLine.model_validate(case["line"] | {"allowed": tuple(case["line"].get("allowed", ()))})
    try:
        found = check_line(line, case["value"], case["asked"])
    except ValueError:
        return {"refused": True}
    return {"word": found.word.value, "proved": found.proved, "uncertainty": found.uncertainty}


def drawn(count: int, seed: int) -> list[dict[str, Any]]:
    """Lines and values drawn at random, many of them on or a hair beside a limit or a guard."""
    dice = random.Random(seed)
    return [_drawn(dice) for _ in range(count)]


def _drawn(dice: random.Random) -> dict[str, Any]:
    low, width = dice.choice((0, 0.5, 8.5, 30, -60)), dice.choice((0.1, 1, 4, 20))
    ends = {"low": f"{low:g}", "high": f"{low + width:g}"}
    for end in dice.choice(((), ("low",), ("high",))):
        del ends[end]
    doubt = dice.choice((None, "0", "0.15", "3 %", "2.5 %", "sqrt(1, 5 %)", "sqrt(0.03, 2 %)", "soon"))
    near = dice.choice((low, low + width, low + 1.645 * 0.15, low + width - 1.645 * 0.15))
    far, close = f"{near + dice.gauss(0, 1):.3f}", f"{near + dice.gauss(0, 0.01):.6f}"
    value = dice.choice((f"{near:g}", far, close, None, "x", "1e3"))
    line = {"name": "x", "words": "x", "unit": "A", "when": "every pass", "source": "its own", "beyond": "Stop."}
    return {"line": line | ends | {"uncertainty": doubt}, "value": value, "asked": dice.random() < 0.8}


def test_the_tablet_answers_every_case_as_the_file_says(browser: Browser) -> None:
    """The script gives the word and the proof that stand beside each case of the shared file."""
    assert differing(browser) == []


def test_the_tablet_and_the_server_agree_to_the_last_digit(browser: Browser) -> None:
    """On 3 000 drawn lines and values, script and server give the same word, proof and uncertainty, bit for bit."""
    cases = drawn(3000, seed=6)
    assert by_script(browser, cases) == [by_server(case) for case in cases]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("PROOF_FACTOR = 1.645", "PROOF_FACTOR = 1.96"),
        ("WIDE_ENOUGH = 4", "WIDE_ENOUGH = 2"),
        ("if (room >= 0)", "if (room > 0)"),
        ('{ word: "unknown", proved: false };\n  return clear', '{ word: "within", proved: true };\n  return clear'),
        ("Number(part[1]) / 100", "Number(part[1]) / 1000"),
    ],
)
def test_a_script_that_judges_otherwise_is_caught(browser: Browser, old: str, new: str) -> None:
    """Control: a wider guard, a narrower range, a limit counted as beyond, a missing doubt let through: each shows."""
    assert differing(browser, **{"judge_card.js": swapped(old, new)}) != []
