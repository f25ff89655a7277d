"""RFC 8785 against its reference data.

Source: cyberphone/json-canonicalization, testdata/ (Apache-2.0), the reference data of RFC 8785: six inputs and outputs
in canonical_json.json, carried over as they are. Two of the six hold floats, which may not be sealed; they are refused.
"""

import json
from pathlib import Path

import pytest

from server.evidence.canonical import canonical_line, parse_line
from server.evidence.refusals import LineRefused

CASES = {
    case["name"]: case for case in json.loads(Path(__file__).with_name("canonical_json.json").read_text())["cases"]
}
WITH_FLOATS = {"structures.json": ("1['\\n']", "56.0"), "values.json": ("numbers[0]", "333333333.3333333")}
WITHOUT = sorted(set(CASES) - set(WITH_FLOATS))


def test_all_cases_are_there():
    """The file holds the six cases of the source, four of them without floats."""
    assert len(CASES) == 6
    assert WITHOUT == ["arrays.json", "french.json", "unicode.json", "weird.json"]


@pytest.mark.parametrize("name", WITHOUT)
def test_canonical_form(name):
    """Each published input without floats gives the published bytes."""
    assert canonical_line(json.loads(CASES[name]["input"])) == CASES[name]["output"].encode()


@pytest.mark.parametrize("name", WITHOUT)
def test_canonical_form_is_read_back(name):
    """Each published output is read by the strict reader and written again byte for byte."""
    line = CASES[name]["output"].encode()
    assert canonical_line(parse_line(line)) == line


@pytest.mark.parametrize("name", WITH_FLOATS)
def test_floats_are_refused(name):
    """Each published input with a float is refused at the first of them, though RFC 8785 itself would write it."""
    with pytest.raises(LineRefused) as refused:
        canonical_line(json.loads(CASES[name]["input"]))
    assert (refused.value.path, refused.value.value) == WITH_FLOATS[name]


def test_sorting_by_code_points_fails_one():
    """Control: the standard library's own sorted writing does not give the published bytes of "weird"."""
    case = CASES["weird.json"]
    plain = json.dumps(json.loads(case["input"]), sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    assert plain != case["output"]
