"""A kept line is read as the noun its validation makes of it, or validated where its shape leaves room for doubt."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from server.evidence.canonical import canonical_line
from server.facts.log import LOG_ENTRY
from server.facts.register_line import REGISTER_LINE
from server.record.kept_nouns import KEPT_ENTRIES, KEPT_REGISTER_LINES
from tests.record.sample_lines import BEAD, entry_bytes, entry_told, person

MOMENTS = st.sampled_from(["2025-03-18T12:38:05.000Z", "2025-03-18T12:38:05Z", "1969-12-31T23:59:59.5Z"])
MEASURED = st.sampled_from([
    {"value": "8", "unit": "ppm", "how": "typed"},
    {"value": "8.50", "unit": "ppm", "how": "read", "by": "PA-1"},
    {"by": None, "how": "typed", "unit": "ppm", "value": "8"},
    {"value": 8, "unit": "ppm", "how": "typed"},
    {"value": "8", "unit": "A", "how": "typed"},
])
# What pydantic reads from JSON of another kind than the noun holds: 7.0 and "7" for 7, "yes" for true.
SEQ = st.sampled_from([7, 7.0, "7"])
MORE: dict[str, st.SearchStrategy[Any]] = {
    "seq": SEQ,
    "mono_ms": st.none() | SEQ,
    "unconfirmed": st.sampled_from([True, False, "yes", 1]),
    "device_time": MOMENTS,
    "note": st.none() | st.text(max_size=5),
}
OF_A_PASS = MORE | {
    "arc_started": st.none() | MOMENTS,
    "quarters": st.lists(st.sampled_from(["q12", "q3"]), max_size=2),
    "restrikes": SEQ,
    "values": st.dictionaries(st.just("oxygen"), MEASURED),
}
OF_A_TRACE = MORE | {
    "beads": st.lists(SEQ, max_size=2),
    "energy_doubt_j": st.sampled_from([None, "3", "2.50"]),
    "flags": st.lists(st.text(max_size=3), max_size=2),
}
TRACE = {"of": "TAB-1:b1:1", "sha256": "ab", "instrument": "SC-1"}
CORRECTION = {"of": "TAB-1:b1:1", "reason": "mistyped", "change": {"joint": "J2", "values": {"oxygen": {"value": "3"}}}}


def all_of(noun: BaseModel) -> tuple[object, ...]:
    """Give all that can be asked of a noun."""
    return type(noun), noun, repr(noun), noun.model_fields_set, list(noun.__dict__), noun.model_dump_json()


def drawn(kind: str, further: dict[str, Any], more: dict[str, st.SearchStrategy[Any]]) -> st.SearchStrategy[bytes]:
    """Lines of one kind, each name of `more` told or not."""
    told = st.fixed_dictionaries({}, optional=more)
    return told.map(lambda each: json.dumps(entry_told(1, kind, **further) | each).encode())


ENTRIES = st.one_of(
    drawn("pass", {}, OF_A_PASS),
    drawn("trace", TRACE, OF_A_TRACE),
    drawn("bead", BEAD, MORE),
    drawn("correction", CORRECTION, MORE),
)


def kept(body: bytes) -> bool:
    """Tell whether a line would have been kept as an entry."""
    try:
        LOG_ENTRY.validate_json(body)
    except ValidationError:
        return False
    return True


@settings(max_examples=100)
@given(ENTRIES.filter(kept))
def test_a_drawn_entry_is_read_as_it_is_validated(body: bytes):
    """Whatever is told, left out or told as JSON of another kind, both roads give one noun, the second time too."""
    for _ in range(2):
        assert all_of(KEPT_ENTRIES.read(body)) == all_of(LOG_ENTRY.validate_json(body))


def test_a_mended_copy_is_its_own():
    """A copy with something put right leaves the noun it was made of, and others of its shape, as they were."""
    first, second = KEPT_ENTRIES.read(entry_bytes(1)), KEPT_ENTRIES.read(entry_bytes(2))
    mended = first.model_copy(update={"note": "put right"})
    assert "note" in mended.model_fields_set
    assert "note" not in first.model_fields_set | second.model_fields_set


def test_what_was_left_out_is_not_shared():
    """Two lines that tell no values have each a mapping of their own."""
    bodies = [entry_bytes(number, values=None) for number in (1, 2, 3)]
    values = [KEPT_ENTRIES.read(body).told("values") for body in bodies]
    assert values == [{}, {}, {}]
    assert values[1] is not values[2]


@pytest.mark.parametrize("body", [b"[]", b"{}", b'"pass"', b"not JSON", b'{"kind":[]}', b'{"kind":"unheard of"}'])
def test_what_is_no_entry_is_complained_of(body: bytes):
    """Bytes that are no entry get the complaint of the validation."""
    with pytest.raises(ValidationError):
        KEPT_ENTRIES.read(body)


def test_a_register_line_is_read_as_it_is_validated():
    """A paper with roles and a date, told with the same names twice, is the noun its validation makes."""
    for told in (person(), person(name="Bo Hale"), person(name="Cy Moor", roles=[])):
        body = canonical_line(told)
        assert all_of(KEPT_REGISTER_LINES.read(body)) == all_of(REGISTER_LINE.validate_json(body))
