"""Canonical lines: equal to RFC 8785 on what may be sealed, and read without ambiguity."""

import json
import math
from decimal import Decimal

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.canonical import canonical_line, parse_line, refuse_unfit
from server.evidence.refusals import LineRefused

TEXT = st.text(st.characters(exclude_categories=["Cs"]))
WHOLE = st.integers(min_value=1 - 2**53, max_value=2**53 - 1)
SEALED = st.recursive(
    st.none() | st.booleans() | WHOLE | TEXT,
    lambda inner: st.lists(inner, max_size=5) | st.dictionaries(TEXT, inner, max_size=5),
    max_leaves=20,
)


@given(SEALED)
def test_equals_the_oracle_byte_for_byte(value):
    """On every value that may be sealed, the line is the one an independent RFC 8785 writer gives."""
    assert canonical_line(value) == rfc8785.dumps(value)


@given(SEALED)
def test_what_is_written_is_read_back(value):
    """Reading a canonical line gives the value it was written from, and writing that gives the same bytes."""
    line = canonical_line(value)
    assert parse_line(line) == value
    assert canonical_line(parse_line(line)) == line


def test_names_are_ordered_by_utf_16():
    """A sign beyond U+FFFF sorts before U+FB33, as its UTF-16 units do and its code point does not."""
    assert canonical_line({"\ufb33": 1, "\U0001f602": 2}) == '{"\U0001f602":2,"\ufb33":1}'.encode()


def test_a_frozen_tuple_is_written_as_a_list():
    """The tuples that frozen nouns hold are lists on the line."""
    assert canonical_line({"quarters": ("q12", "q6")}) == b'{"quarters":["q12","q6"]}'


@pytest.mark.parametrize(
    ("value", "path", "found"),
    [
        (45.0, "the whole line", "45.0"),
        ({"values": [{"amps": 45.5}]}, "values[0].amps", "45.5"),
        ({"values": {"amps": math.nan}}, "values.amps", "nan"),
        ({"n": 2**53}, "n", "a whole number of 2^53 or more"),
        ({"n": [0, -(2**53)]}, "n[1]", "a whole number of 2^53 or more"),
        ({"amps": Decimal("45.0")}, "amps", "Decimal('45.0')"),
        ({"raw": b"45"}, "raw", "b'45'"),
        ({"a": {1: 2}}, "a", "1"),
        ({"note": "half \ud83d"}, "note", "half \\ud83d"),
        ({"a": {"\udc00": 2}}, "a", "\\udc00"),
    ],
)
def test_an_unfit_value_is_refused_by_path(value, path, found):
    """What may not be sealed is refused with the path to it and the value that stood there."""
    with pytest.raises(LineRefused) as refused:
        canonical_line(value)
    assert (refused.value.path, refused.value.value) == (path, found)


def test_a_float_is_told_how_to_be_written():
    """The refusal of a float says what to write instead."""
    with pytest.raises(
        LineRefused, match=r'values\.amps: found 45\.5; expected a measured value as text, such as "45\.5"'
    ):
        canonical_line({"values": {"amps": 45.5}})


@pytest.mark.parametrize(
    ("line", "path", "found"),
    [
        (b'{"amps":45.0}', "amps", "45.0"),
        (b'{"values":[1,{"amps":1e3}]}', "values[1].amps", "1e3"),
        (b'{"amps":1e400}', "amps", "1e400"),
        (b'{"amps":NaN}', "amps", "NaN"),
        (b'{"amps":-Infinity}', "amps", "-Infinity"),
        (b'{"n":9007199254740992}', "n", "a whole number of 2^53 or more"),
        (b'{"n":' + b"9" * 5000 + b"}", "n", "9" * 57 + "..."),
        (b'{"a":{"b":1,"b":1}}', "a.b", "the same name twice"),
        (b'{"a":1,"\\u0061":2}', "a", "the same name twice"),
        (b'{"note":"\\ud83d"}', "note", "\\ud83d"),
        (b'{"a":{"\\n":0.5}}', "a['\\n']", "0.5"),
        (b'\xef\xbb\xbf{"a":1}', "the whole line", "a byte order mark"),
        (b'{"a":"\xff"}', "byte 6", "b'\\xff'"),
        (b'{"a":"\xed\xa0\x80"}', "byte 6", "b'\\xed'"),
        (b'{"a":1}\n', "the whole line", "a line break"),
        (b'{"a":\r1}', "the whole line", "a line break"),
        (b'{"a":1}{', "character 7", "{"),
        (b'{"a":', "character 5", "the end"),
        (b"", "character 0", "the end"),
        (b"{'a':1}", "character 1", "'a':1}"),
        (b'{"a":"\t"}', "character 6", '\t"}'),
        (b"[" * 33 + b"]" * 33, "[0]" * 32, "a deeper level"),
        (b"[" * 100_000, "the whole line", "nested too deep"),
        (b" " * 256_001, "the whole line", "256001 bytes"),
    ],
)
def test_a_line_that_could_be_read_two_ways_is_refused(line, path, found):
    """Duplicates, floats, broken text, bombs and every other slip are refused with their place and what stood there."""
    with pytest.raises(LineRefused) as refused:
        parse_line(line)
    assert (refused.value.path, refused.value.value) == (path, found)


def test_32_levels_are_let_through():
    """The deepest nesting that is allowed is allowed."""
    assert parse_line(b"[" * 32 + b"]" * 32)


def test_the_size_limit_can_be_set():
    """A caller with larger lines, such as machine traces, names its own bound, and the bound itself is let through."""
    assert parse_line(b'"1234"', most_bytes=6) == "1234"
    with pytest.raises(LineRefused, match="7 bytes; expected at most 6 bytes"):
        parse_line(b'"12345"', most_bytes=6)


@given(st.binary() | st.text('{}[]":,\\u0123456789abcdefE+-.tfn \t').map(str.encode))
def test_nothing_else_is_ever_raised(line):
    """Whatever bytes come, the answer is a value Python's own reader agrees with, or a refusal, never another error."""
    try:
        value = parse_line(line)
    except LineRefused:
        return
    assert value == json.loads(line)


def _refusal(look, line):
    try:
        look(line)
    except LineRefused as refused:
        return str(refused)
    return None


@given(st.binary() | st.text('{}[]":,\\u0123456789abcdefE+-.tfn \t').map(str.encode))
def test_looking_a_line_through_refuses_what_reading_it_refuses(line):
    """A line that is only looked through is refused where reading it would be and in the same words."""
    assert _refusal(refuse_unfit, line) == _refusal(parse_line, line)


@pytest.mark.parametrize(
    "line",
    [
        b'{"n":9007199254740992}',
        b'{"n":9007199254740991}',
        b'{"n":-9007199254740992}',
        b'{"a":{"b":1,"b":1}}',
        b'{"a" :1,"a":2}',
        b'{"a":1,"\\u0061":2}',
        b'{"note":"\\ud83d"}',
        b'{"note":"\\u00e9"}',
        b'{"a":[1,2.5]}',
        b'{"a":[NaN,-Infinity]}',
        b"[" * 32 + b"]" * 32,
        b"[" * 33 + b"]" * 33,
        b"[" + b"[]," * 40 + b"1]",
        '{"a":"45 °C \U0001f602","é":1}'.encode(),
    ],
)
def test_the_quick_look_lets_nothing_by(line):
    """What only a close look can tell apart is told apart after the quick one too."""
    assert _refusal(refuse_unfit, line) == _refusal(parse_line, line)
