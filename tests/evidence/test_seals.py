"""Seals: written canonically, read strictly."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.canonical import canonical_line, parse_line
from server.evidence.refusals import LineRefused
from server.evidence.seals import Seal, read_seal, seal_line

HASH = st.binary(min_size=32, max_size=32)
SEALS_OF_ANY_KIND = st.builds(Seal, HASH, st.integers(0, 10**6), st.integers(0, 4 * 10**12), st.none() | HASH)


@given(SEALS_OF_ANY_KIND)
def test_a_seal_is_read_back_from_its_line(seal):
    """The line holds the subjects' root, their number, the moment to the millisecond and the checkpoint before."""
    line = seal_line(seal)
    assert read_seal(line) == seal
    assert canonical_line(parse_line(line)) == line


def test_a_seal_reads_as_text():
    """The moment and the hashes stand in the line as a person can read and compare them."""
    line = seal_line(Seal(b"\xab" * 32, 3, 1500, None))
    assert line == (
        b'{"format":"strawline seal 1","previous":null,"sealed_at":"1970-01-01T00:00:01.500Z","subjects":3,'
        b'"subjects_root":"' + b"ab" * 32 + b'"}'
    )


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("format", "strawline seal 2"),
        ("subjects", -1),
        ("subjects", "3"),
        ("subjects", True),
        ("subjects_root", "ab"),
        ("subjects_root", "no hex"),
        ("subjects_root", None),
        ("previous", 7),
        ("sealed_at", "yesterday"),
        ("sealed_at", 1500),
    ],
)
def test_a_seal_with_an_unfit_member_is_refused_by_name(name, value):
    """Each member of a seal is checked, and the refusal names it."""
    members = {**json.loads(seal_line(Seal(bytes(32), 3, 1500, bytes(32)))), name: value}
    with pytest.raises(LineRefused) as refused:
        read_seal(canonical_line(members))
    assert refused.value.path == name


@pytest.mark.parametrize("line", [b"[]", b'{"format":"strawline seal 1"}', b'{"kind":"pass"}', b"\xff"])
def test_another_line_is_no_seal(line):
    """An ordinary entry, an incomplete seal or no JSON at all is refused."""
    with pytest.raises(LineRefused):
        read_seal(line)
