"""In whose chains a noun stands, so that leaving it out of any of them shows."""

from typing import Any

import pytest

from server.evidence.chain_subject import CHAIN_KINDS
from server.facts.log import LOG_ENTRY
from server.facts.register_line import REGISTER_LINE
from server.record.subjects import subjects_of_entry, subjects_of_register
from tests.record.sample_lines import OXYGEN, entry_told, person

SIGNED = {"person": "Q", "role": "owner", "at": "2025-03-18T12:00:00Z", "meaning": "decided", "shown_sha256": "0"}
GAS_LEFT = {"value": "14", "unit": "bar", "how": "typed"}


def of_entry(kind: str, **further: Any) -> set[str]:
    entry = LOG_ENTRY.validate_python(entry_told(1, kind, **further))
    return {str(subject) for subject in subjects_of_entry(entry)}


@pytest.mark.parametrize(
    ("kind", "further", "subjects"),
    [
        ("pass", {"purge_line": "T-2"}, {"frame F-1", "gas line T-1", "gas line T-2", "instrument PA-1", "welder P1"}),
        ("pass", {"sleeve": "S-1", "values": {}}, {"frame F-1", "gas line T-1", "sleeve S-1", "welder P1"}),
        ("pass", {"sleeve": "none", "values": {}}, {"frame F-1", "gas line T-1", "welder P1"}),
        ("pass", {"machine": "M-1", "values": {}}, {"frame F-1", "gas line T-1", "instrument M-1", "welder P1"}),
        ("bead", {"line": "T-1", "result": "failed"}, {"gas line T-1", "welder P1"}),
        ("coupon", {"welder": "P2", "procedures": ["a"], "result": "good"}, {"welder P1", "welder P2"}),
        ("check", {"check": "air", "subject": "PA-1", "result": "good"}, {"instrument PA-1", "welder P1"}),
        ("check", {"check": "leak", "subject": "T-1", "result": "good"}, {"gas line T-1", "welder P1"}),
        (
            "check",
            {"check": "cross", "subject": "PA-1", "against": "PA-2", "result": "good"},
            {"instrument PA-1", "instrument PA-2", "welder P1"},
        ),
        ("cylinder", {"line": "T-1", "off_values": {"pressure": GAS_LEFT}}, {"gas line T-1", "welder P1"}),
        ("sleeve", {"sleeve": "S-1", "act": "opened"}, {"sleeve S-1", "welder P1"}),
        ("reading", {"line": "T-1", "values": {"oxygen": OXYGEN}}, {"gas line T-1", "instrument PA-1", "welder P1"}),
        ("problem", {"words": "strike", "frame": "F-1"}, {"frame F-1", "welder P1"}),
    ],
)
def test_subjects_of_an_entry(kind: str, further: dict[str, Any], subjects: set[str]):
    """An entry stands in the chain of its frame, its gas lines, its instruments, its sleeve and its people."""
    assert of_entry(kind, **further) == subjects


REGISTER_LINES: list[tuple[dict[str, Any], set[str]]] = [
    (person(), {"register person", "welder P1"}),
    ({"kind": "instrument", "id": "PA-1", "title": "analyser"}, {"register instrument", "instrument PA-1"}),
    (
        {"kind": "calibration", "id": "C", "instrument": "PA-1", "at": "2025-01-01T00:00:00Z", "result": "fail"},
        {"register calibration", "instrument PA-1"},
    ),
    (
        {"kind": "window", "id": "W", "what": "instrument at bench", "subject": "PA-1"}
        | {"since": "2025-01-01T00:00:00Z"},
        {"register window", "instrument PA-1"},
    ),
    (
        {"kind": "rod sleeve", "id": "S-1", "lot": "L", "filler_class": "x", "rod_mm": "1.6"},
        {"register rod sleeve", "sleeve S-1"},
    ),
    ({"kind": "fill lot", "id": "G", "cylinders": ["A"]}, {"register fill lot"}),
    (
        {"kind": "decision", "id": "D", "choice": "accept", "findings": ["F-1/J1#1|heat", "T-1|bead"]}
        | {"reason": "looked at", "signatures": [SIGNED]},
        {"register decision", "frame F-1"},
    ),
    (
        {"kind": "nonconformity", "id": "N", "title": "gas", "held": ["F-2/J1#1"]},
        {"register nonconformity", "frame F-2"},
    ),
    (
        {"kind": "concession", "id": "K", "frames": ["F-1", "F-2"], "reason": "as agreed", "signatures": [SIGNED] * 2},
        {"register concession", "frame F-1", "frame F-2"},
    ),
]


@pytest.mark.parametrize(("told", "subjects"), REGISTER_LINES)
def test_subjects_of_a_register_line(told: dict[str, Any], subjects: set[str]):
    """A register line stands in its register's chain, and in those of the frames, instruments and people it names."""
    found = subjects_of_register(REGISTER_LINE.validate_python(told))
    assert {str(subject) for subject in found} == subjects
    assert {subject.kind for subject in found} <= CHAIN_KINDS


def test_subjects_come_sorted_and_once():
    """A subject named twice is one subject, and the order does not depend on the fields."""
    entry = LOG_ENTRY.validate_python(entry_told(1, purge_line="T-1"))
    found = subjects_of_entry(entry)
    assert list(found) == sorted(set(found))
