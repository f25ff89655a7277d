"""What our scripts put on a page is text, and they listen to nobody but our own pages."""

import re
from collections.abc import Iterator

import pytest

from tests.house.tree import ROOT

SINKS = re.compile(
    r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|srcdoc|createContextualFragment"
    r"|setTimeout\(\s*[\"'`]|javascript:|\.parseFromString"
)
HEARS = re.compile(r"addEventListener\(\s*[\"'](message|messageerror)[\"']|postMessage|onmessage")
BY_INTENT = {"calculators/calculators.js": "a part of a page made by the server, where every value is escaped"}
"""Scripts that put HTML into a page, each with where that HTML comes from."""
OWN_TABS = {"bench/bench.js": "a channel between the tabs of this very origin"}


def scripts() -> Iterator[tuple[str, str]]:
    pages = ROOT / "server" / "pages"
    for path in sorted(pages.rglob("*.js")):
        yield path.relative_to(pages).as_posix(), path.read_text(encoding="utf-8")


def with_any(pattern: re.Pattern[str]) -> set[str]:
    return {name for name, text in scripts() if pattern.search(text)}


def test_text_is_set_as_text():
    """No script puts what it was told into a page as HTML or runs it, but the one that says where its HTML is from."""
    assert with_any(SINKS) == set(BY_INTENT)


@pytest.mark.parametrize("line", ["a.innerHTML = b", "eval(b)", "new Function(b)", 'setTimeout("b")'])
def test_a_sink_is_found(line: str):
    """Control: each way of turning text into a page or a program is seen."""
    assert SINKS.search(line)


def test_nobody_elses_messages_are_heard():
    """Neither pages nor the offline worker take messages from other windows; only one's own tabs tell each other."""
    assert with_any(HEARS) == set(OWN_TABS)
    assert all("BroadcastChannel" in text for name, text in scripts() if name in OWN_TABS)


def test_what_is_told_becomes_no_property_of_all_objects():
    """No script writes to a prototype or merges what it was sent into objects by names it was sent."""
    risky = re.compile(r"__proto__|\.prototype\b|constructor\[|Object\.setPrototypeOf|deepMerge")
    assert with_any(risky) == set()
