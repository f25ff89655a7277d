"""A row that is kept is the row that would be written anew, and knows nothing but what it is given."""

import re
from pathlib import Path

from jinja2 import meta
from markupsafe import Markup

from server.pages.frame.assets import PAGES
from server.pages.frame.kept_rows import kept
from server.pages.frame.rendering import sheets

_IMPORTED = re.compile(r'{% from "([^"]+)" import ([^%]+?) %}')
_KEPT = re.compile(r"\bkept\((\w+)")


def kept_in(own: Path) -> set[str]:
    """Give the files from which the rows come that a template keeps, its own for those it has itself."""
    text = own.read_text()
    came_from = {name.strip(): file for file, names in _IMPORTED.findall(text) for name in names.split(",")}
    return {came_from.get(row, str(own.relative_to(PAGES))) for row in _KEPT.findall(text)}


def not_given(text: str) -> set[str]:
    """Give what a file of rows asks for besides what its rows are given and what the house has for every sheet."""
    return set(meta.find_undeclared_variables(sheets().parse(text))) - sheets().globals.keys()


def test_rows_that_are_kept_know_nothing_of_page_visitor_or_shop():
    """The file of every row that is kept names nothing that differs from one request to the next."""
    files = set().union(*(kept_in(each) for each in PAGES.rglob("*.html")))
    assert len(files) >= 6
    assert {file: not_given((PAGES / file).read_text()) for file in files} == {file: set() for file in files}


def test_a_row_that_asks_for_the_visitor_is_found():
    """Control: a row that tells who looks at it would be shown to the next one too."""
    assert not_given("{% macro row(one) %}{{ one }} {{ visitor.name }}{% endmacro %}") == {"visitor"}


def test_kept_as_written_anew():
    """Asked again with the same it is the very same text, with anything else another; what is told is escaped once."""
    rows = sheets().from_string("{% macro row(one, other) %}<td>{{ one }}, {{ other }}</td>{% endmacro %}").module
    row = rows.row  # type: ignore[attr-defined]
    first = kept(row, "<b>", 1)
    assert kept(row, "<b>", 1) is first == row("<b>", 1) == Markup("<td>&lt;b&gt;, 1</td>")
    assert isinstance(first, Markup)
    for other in (("<b>", 2), ("<b>", True), ("<b>", 1.0), ("b", 1)):
        assert kept(row, *other) == row(*other) != first
