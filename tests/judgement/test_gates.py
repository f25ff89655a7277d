"""What a gate refuses: each reason by itself shuts it, and with none it opens."""

import pytest

from server.facts.deciding import Permission
from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word
from server.facts.progress import FrameProgress, JointProgress
from server.judgement.gates import AtTheGate, why_shut
from server.judgement.matters import Matter

DONE = FrameProgress(joints={"J01": JointProgress(finished=True), "J02": JointProgress(finished=True)})
HALF = FrameProgress(joints={"J01": JointProgress(finished=True)})


def permission(permits: str) -> Permission:
    signed = {"person": "Q", "role": "quality lead", "at": "2026-01-01T00:00:00Z", "meaning": "seen"}
    told = {"id": "P", "permits": permits, "frame": "A-1", "known_at": 3}
    return Permission.model_validate(told | {"signatures": [signed | {"shown_sha256": "00"}]})


def matter(severity: Severity, joint: str = "J01", state: str = "open") -> Matter:
    verdict = Verdict("purge-o2", f"A-1/{joint}#1", Word.OUTSIDE, severity, "28 ppm, at most 20")
    return Matter(Finding(verdict, "A-1", 3, "then"), None, state)  # type: ignore[arg-type]


def shut(gate: str, progress: FrameProgress = DONE, matters: tuple[Matter, ...] = (), **more) -> list[str]:
    before = {"release": ("final inspection",), "ship": ("final inspection", "release")}.get(gate, ())
    given = more.pop("permissions", tuple(permission(each) for each in before))
    at = AtTheGate(gate, ("J01", "J02"), progress, matters, given, **more)  # type: ignore[arg-type]
    return [reason.words for reason in why_shut(at)]


@pytest.mark.parametrize("gate", ["final inspection", "release", "ship"])
def test_a_frame_with_nothing_open_passes(gate: str):
    """A finished frame with every question decided passes each gate in its order."""
    assert shut(gate) == []
    assert shut(gate, matters=(matter(Severity.STOP, state="decided"), matter(Severity.NOTE))) == []


@pytest.mark.parametrize("state", ["open", "held", "look again"])
@pytest.mark.parametrize("severity", [Severity.STOP, Severity.DECIDE])
def test_an_open_question_shuts_every_gate_of_the_frame(severity: Severity, state: str):
    """A question that is open, held or to be looked at again keeps the frame, and the reason names it."""
    for gate in ("final inspection", "release", "ship"):
        [reason] = shut(gate, matters=(matter(severity, state=state),))
        assert "A-1/J01#1" in reason
        assert state in reason


def test_steps_come_in_order():
    """No release without the final inspection, no shipment without the release."""
    assert "final inspection is not signed" in shut("release", permissions=())[0]
    assert "release is not signed" in shut("ship", permissions=(permission("final inspection"),))[0]


def test_an_unfinished_joint_keeps_the_frame():
    """Every structural joint of the design is welded all round, even one nobody has touched."""
    assert shut("final inspection", HALF) == ["J02 is not welded all round."]


def test_a_silent_tablet_keeps_the_frame():
    """A tablet that had the frame open and has not been heard since keeps the frame."""
    assert "TAB 9 had this frame open" in shut("release", silent_tablets=("TAB 9",))[0]


def test_a_hold_point_wants_a_finished_joint_and_another_person():
    """A hold point is released on a finished joint, by somebody who did not weld it, with no stop open on it."""
    assert shut("hold point", joint="J01", by="Q", welders=frozenset({"W"})) == []
    assert "not welded all round" in shut("hold point", HALF, joint="J02", by="Q")[0]
    assert "welded J01" in shut("hold point", joint="J01", by="W", welders=frozenset({"W"}))[0]
    assert shut("hold point", matters=(matter(Severity.STOP),), joint="J01", by="Q") != []
    elsewhere = (matter(Severity.DECIDE), matter(Severity.STOP, "J02"))
    assert shut("hold point", matters=elsewhere, joint="J01", by="Q") == []
