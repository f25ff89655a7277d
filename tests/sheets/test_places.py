"""Where a value stands in a TOML text."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from server.sheets.places import Path, places

SHEET = '''# a comment with [brackets] = and "quotes"
title = "a [b] = {c}"   # [not.a.table]
long = """
first = 1
[second]
"""
[shop.bench]
lines = [
  "torch",   # 1
  { id = "purge", at = 2 },
]
"odd.name" = 'x'
when.opened = 2025-01-01 07:30:00
[[rods]]
id = 1
[rods.maker]
town = "A"
[[rods]]
id = 2
[rods.maker]
town = "B"
'''


def leaves(value: object, path: Path = ()) -> list[Path]:
    """Every path a reader of the values can name."""
    if isinstance(value, dict):
        return [path, *(p for key, inner in value.items() for p in leaves(inner, (*path, key)))]
    if isinstance(value, list):
        return [path, *(p for index, inner in enumerate(value) for p in leaves(inner, (*path, index)))]
    return [path]


def test_each_value_has_the_line_it_stands_on() -> None:
    """Strings that look like tables, nested lists, inline tables and repeated tables do not mislead the count."""
    found = places(SHEET)
    assert found[("title",)] == 2
    assert found[("shop", "bench")] == 7
    assert found[("shop", "bench", "lines", 0)] == 9
    assert found[("shop", "bench", "lines", 1, "at")] == 10
    assert found[("shop", "bench", "odd.name")] == 12
    assert found[("shop", "bench", "when")] == 13
    assert [found[("rods", n, "maker", "town")] for n in (0, 1)] == [17, 21]


def test_no_value_is_without_a_line() -> None:
    """Every path that tomllib finds has a line, and the line of a key names the key."""
    found = places(SHEET)
    lines = SHEET.splitlines()
    for path in leaves(tomllib.loads(SHEET))[1:]:
        assert path in found, path
        if isinstance(path[-1], str):
            assert path[-1] in lines[found[path] - 1]


words = st.text(st.characters(codec="utf-8", exclude_characters="\x7f", exclude_categories=("Cc", "Cs")), max_size=12)


@given(st.lists(words, max_size=5), words)
def test_whatever_stands_in_quotes_is_not_read_as_toml(texts: list[str], last: str) -> None:
    """Any text in quotes keeps the keys after it on their own lines."""
    quoted = [f'"{text.translate({34: None, 92: None})}"' for text in texts]
    text = f"a = [\n{''.join(f'  {q},' + chr(10) for q in quoted)}]\nb = '{last.replace(chr(39), '')}'\nc = 1\n"
    assert tomllib.loads(text)["c"] == 1
    found = places(text)
    assert found[("c",)] == 4 + len(texts)
    assert all(found[("a", n)] == 2 + n for n in range(len(texts)))
