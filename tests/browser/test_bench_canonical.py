"""The line a tablet saves is the line the record would write: same names, same order, same bytes, and no floats."""

import random
from typing import Any

import pytest
from playwright.sync_api import Browser

from server.evidence.canonical import canonical_line
from tests.browser.scripts import run, script_page, swapped

_WRITE_ALL = "return given.map((value) => { try { return it.canonicalLine(value); } catch { return null; } });"
_TEXTS = (
    "", "J06", "wiped", "°C", "×", "\u2028", "€", "\ufb33", "\U0001f600", 'a"b\\c', "tab\tnew\nline", "\x01\x7f", "é",
)  # fmt: skip


def _drawn(dice: random.Random, depth: int = 0) -> Any:
    kinds = ("text", "number", "word") if depth > 3 else ("text", "number", "word", "list", "object", "object")
    kind = dice.choice(kinds)
    if kind == "text":
        return "".join(dice.choices(_TEXTS, k=3))
    if kind == "number":
        return dice.choice((0, 1, -7, 482211, 2**53 - 1, -(2**53) + 1))
    if kind == "word":
        return dice.choice((True, False, None))
    members = [_drawn(dice, depth + 1) for _ in range(dice.randrange(4))]
    return members if kind == "list" else {dice.choice(_TEXTS) + str(dice.randrange(9)): each for each in members}


def written(browser: Browser, values: list[Any], **altered: Any) -> list[str | None]:
    page = script_page(browser, altered)
    try:
        lines: list[str | None] = run(page, "canonical.js", _WRITE_ALL, values)
    finally:
        page.close()
    return lines


def test_both_write_the_same_bytes(browser: Browser) -> None:
    """1 000 drawn values, with names beyond the basic plane and every kind of escape, give the same canonical line."""
    dice = random.Random(8785)
    values = [_drawn(dice) for _ in range(1000)]
    assert written(browser, values) == [canonical_line(value).decode() for value in values]


def test_a_script_with_another_order_is_caught(browser: Browser) -> None:
    """Control: names put in the order of another rule give other bytes."""
    value = {"b": 1, "B": 2, "a": 3}
    other = swapped("Object.keys(value).sort()", "Object.keys(value).sort((a, b) => a.localeCompare(b))")
    assert written(browser, [value], **{"canonical.js": other}) != [canonical_line(value).decode()]


@pytest.mark.parametrize("unfit", ["0.5", "NaN", "2 ** 53", "-0", "undefined", "'\\ud800'", "new Map()[0]"])
def test_what_may_not_be_sealed_is_refused(browser: Browser, unfit: str) -> None:
    """Floats, what is no number, too large a number, half a surrogate pair and gaps are refused, by their path."""
    page = script_page(browser)
    try:
        told = run(
            page,
            "canonical.js",
            f"try {{ it.canonicalLine({{values: [{unfit}]}}); return 'taken'; }} catch (no) {{ return no.message; }}",
        )
    finally:
        page.close()
    assert told.startswith("the line.values[0]: ")
