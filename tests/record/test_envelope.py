"""The envelope as it is written is the one canonical line of what it tells."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.canonical import canonical_line
from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import chain_of, extended
from server.evidence.refusals import LineRefused
from server.facts.moment import show_moment
from server.record.envelope import FORMAT, envelope_of
from server.record.lines import NewLine

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
MOMENT = st.integers(0, 4_000_000_000_000)
LEAF = b"l" * 32


@given(
    *(TEXT, TEXT, TEXT, TEXT | st.none(), TEXT | st.none()),
    *(MOMENT, MOMENT | st.none(), st.lists(TEXT, max_size=4, unique=True)),
)
def test_it_is_canonical(
    name: str, kind: str, device: str, delivery: str | None, problem: str | None,
    received_ms: int, sent_ms: int | None, frames: list[str],
):  # fmt: skip
    """Whatever a line tells, its envelope is byte for byte what the writer of canonical lines makes of it."""
    subjects = tuple(ChainSubject("frame", frame) for frame in frames)
    before = {subject: extended(chain_of(subject), LEAF) for subject in subjects}
    line = NewLine(kind, name, device, b"", received_ms, sent_ms, subjects, problem, "taken before", delivery)
    assert envelope_of(line, 7, LEAF, before) == canonical_line(
        {
            "format": FORMAT,
            "position": 7,
            "id": name,
            "kind": kind,
            "delivery": delivery,
            "device": device,
            "received": show_moment(received_ms),
            "sent": None if sent_ms is None else show_moment(sent_ms),
            "state": "taken before",
            "problem": problem,
            "sha256": LEAF.hex(),
            "subjects": [[*subject, 2, before[subject].head.hex()] for subject in subjects],
        }
    )


def test_half_of_a_pair_is_refused():
    """Text that UTF-8 cannot hold is never sealed."""
    with pytest.raises(LineRefused, match="half of a surrogate pair"):
        envelope_of(NewLine("entry", "half \ud83d", "TAB-1", b"", 0), 1, LEAF, {})
