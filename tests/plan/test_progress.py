"""How far a frame has come, told from its entries."""

from typing import Any

import pytest

from server.facts.entry import QUARTERS
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.progress import FrameProgress, JointProgress
from server.plan.progress import frame_progress
from tests.plan.cart import cart

DESIGN = cart()


def told(*entries: dict[str, Any]) -> FrameProgress:
    return frame_progress(DESIGN, [entry(number, **fields) for number, fields in enumerate(entries)])


def entry(number: int, **fields: Any) -> AnyEntry:
    head = {"id": f"T:1:{number}", "device": "T", "seq": number, "who": "me"}
    if fields["kind"] != "correction":
        head["frame"] = "F-1"
    times = {"device_time": "2031-05-05T08:00:00Z", "happened": "2031-05-05T08:00:00Z"}
    return LOG_ENTRY.validate_python({**head, **times, **fields})


def tack(joint: str, **more: Any) -> dict[str, Any]:
    return {"kind": "tack", "joint": joint, **more}


def run(joint: str, run: str, **more: Any) -> dict[str, Any]:
    return {"kind": "pass", "joint": joint, "run": run, "torch_line": "L-T", **more}


DONE = (tack("A1"), run("A1", "root"), run("A1", "fill"))


def test_an_untouched_frame_has_done_nothing() -> None:
    """Every joint of the design is there, none has begun."""
    done = told()
    assert set(done.joints) == {joint.id for joint in DESIGN.joints}
    assert not any(joint.tacked or joint.welded or joint.finished for joint in done.joints.values())


def test_a_joint_is_finished_when_every_run_has_gone_over_every_quarter() -> None:
    """Root all round and fill on three quarters is not finished; the fourth quarter finishes it."""
    three = told(tack("A1"), run("A1", "root"), run("A1", "fill", quarters=("q12", "q3", "q6")))
    assert three.joint("A1").runs["fill"] == ("q12", "q3", "q6")
    assert not three.joint("A1").finished
    last = told(
        tack("A1"),
        run("A1", "root"),
        run("A1", "fill", quarters=("q6", "q3", "q12")),
        run("A1", "fill", quarters=("q9",)),
    )
    assert last.joint("A1").finished
    assert last.joint("A1").runs["fill"] == QUARTERS


def test_a_tack_cut_out_again_is_no_tack() -> None:
    """What is removed no longer holds."""
    assert told(tack("A1")).joint("A1").tacked
    assert not told(tack("A1"), tack("A1", removed=True)).joint("A1").tacked


def test_a_joint_cut_out_whole_begins_again() -> None:
    """After removal of all quarters the next attempt starts with nothing."""
    done = told(*DONE, {"kind": "release", "joint": "A1"}, {"kind": "removed", "joint": "A1", "method": "saw"})
    assert done.joint("A1").attempt == 2
    assert done.joint("A1") == JointProgress(attempt=2)


def test_a_repair_of_some_quarters_mends_those() -> None:
    """Two quarters ground away take finish and release with them; a repair run over both gives the finish back."""
    ground = (
        *DONE,
        {"kind": "release", "joint": "A1"},
        {"kind": "removed", "joint": "A1", "method": "ground", "quarters": ("q3", "q6")},
    )
    open_again = told(*ground).joint("A1")
    assert (open_again.finished, open_again.released, open_again.runs["fill"]) == (False, False, ("q12", "q9"))
    mended = told(*ground, run("A1", "repair", attempt=2, quarters=("q3", "q6"))).joint("A1")
    assert (mended.finished, mended.attempt) == (True, 2)


def test_a_tack_of_a_later_attempt_starts_from_nothing() -> None:
    """A new piece is tacked as attempt two: what was welded on the old one counts no more, even if it arrives late."""
    done = told(*DONE, tack("A1", attempt=2), run("A1", "wash", attempt=1)).joint("A1")
    assert (done.attempt, done.tacked, done.welded, done.finished) == (2, True, False, False)


def test_a_withdrawn_entry_counts_as_never_made() -> None:
    """A fill entered on the wrong joint and withdrawn leaves the joint unfinished."""
    taken_back = {"kind": "correction", "of": "T:1:2", "withdraw": True, "reason": "wrong joint"}
    assert not told(*DONE, taken_back).joint("A1").finished
    put_right = {"kind": "correction", "of": "T:1:2", "change": {"note": "x"}, "reason": "a note forgotten"}
    assert told(*DONE, put_right).joint("A1").finished


def test_the_tack_of_what_hides_a_seam_covers_its_quarter() -> None:
    """Only the quarter the design names disappears, and only once the brace is tacked."""
    assert told(*DONE).joint("A1").covered == ()
    done = told(*DONE, tack("A4"))
    assert {name: joint.covered for name, joint in done.joints.items() if joint.covered} == {"A1": ("q9",)}


@pytest.mark.parametrize(("results", "last"), [(("failed", "good"), "good"), (("good", "failed"), "failed")])
def test_the_last_result_of_a_check_counts(results: tuple[str, str], last: str) -> None:
    """A check made again replaces what it said before."""
    done = told(*({"kind": "geometry", "check": "C1", "result": result} for result in results))
    assert done.geometry == {"C1": last}


def test_stages_are_told_in_their_order() -> None:
    """The way of the frame through the house."""
    assert told({"kind": "stage", "stage": "cut"}, {"kind": "stage", "stage": "reamed"}).stages == ("cut", "reamed")
