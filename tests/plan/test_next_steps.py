"""What may come next, and why the rest may not."""

from hypothesis import given
from hypothesis import strategies as st

from server.facts.entry import QUARTERS, Quarter
from server.facts.progress import FrameProgress, JointProgress
from server.plan.next_steps import Step, what_next
from server.plan.step_links import links
from server.plan.steps import is_done
from tests.plan.cart import cart

DESIGN = cart()
TACKED = JointProgress(tacked=True)
ROOTED = JointProgress(tacked=True, runs={"root": QUARTERS})
FINISHED = JointProgress(tacked=True, runs={"root": QUARTERS, "fill": QUARTERS}, finished=True)


def next_on(joint: str, geometry: bool = True, **joints: JointProgress) -> Step | None:
    done = FrameProgress(joints=joints, geometry={"C1": "good"} if geometry else {})
    return next((step for step in what_next(DESIGN, done) if step.joint == joint), None)


def words(step: Step | None) -> list[str]:
    assert step is not None
    return [reason.words for reason in step.blocked_by]


def test_an_untouched_frame_may_be_tacked_where_nothing_comes_first() -> None:
    """Allowed steps stand before those that wait, in the usual order of the design."""
    steps = what_next(DESIGN, FrameProgress())
    assert [(s.joint, s.action) for s in steps if s.allowed] == [
        ("A2", "tack"),
        ("A1", "tack"),
        ("A5", "tack"),
        ("B1", "tack"),
    ]
    assert [s.joint for s in steps if not s.allowed] == ["C1", "A3", "A4"]
    assert [s.allowed for s in steps] == [True] * 4 + [False] * 3


def test_a_cover_says_what_it_would_hide_and_what_to_do_first() -> None:
    """While the seam is unfinished it is to be finished and released, then only released."""
    early, late = next_on("A4", A1=TACKED), next_on("A4", A1=FINISHED)
    assert words(early) == ["the brace would hide 9 o'clock of A1: finish and release A1 first"]
    assert words(late) == ["the brace would hide 9 o'clock of A1: release A1 first"]
    assert late is not None
    assert [reason.first for reason in late.blocked_by] == ["A1:released"]
    free = next_on("A4", A1=FINISHED.model_copy(update={"released": True}))
    assert free is not None
    assert free.allowed


def test_a_check_between_tacking_and_welding_blocks_the_root() -> None:
    """The rail is tacked, the check is not made: the root waits, in words."""
    step = next_on("A1", geometry=False, A1=TACKED, A2=TACKED)
    assert step is not None
    assert (step.action, step.allowed) == ("root", False)
    assert words(step) == ["the rails are measured before they are welded fast: make check C1 first"]
    assert next_on("A1", geometry=True, A1=TACKED) == Step("A1:welded", "root", "A1", True, (), QUARTERS)


def test_a_check_waits_for_its_tacks_and_is_over_when_good() -> None:
    """Squareness is checked once both are tacked, and asked no more when it was good."""
    assert words(next_on("C1", geometry=False, A1=TACKED)) == [
        "squareness is measured on the tacked rails: tack A2 first"
    ]
    ready = next_on("C1", geometry=False, A1=TACKED, A2=TACKED)
    assert ready is not None
    assert ready.allowed
    assert next_on("C1", geometry=True) is None


def test_the_quarters_still_open_are_named() -> None:
    """A root run on two quarters leaves the other two, and a fill follows when they are done."""
    half: tuple[Quarter, ...] = ("q3", "q6")
    begun = next_on("A2", A2=JointProgress(tacked=True, runs={"root": half}))
    assert begun is not None
    assert (begun.action, begun.quarters) == ("root", ("q12", "q9"))
    after = next_on("A2", A2=ROOTED)
    assert after is not None
    assert (after.action, after.step, after.quarters) == ("fill", "A2:finished", QUARTERS)


def test_a_repaired_quarter_needs_no_root_again() -> None:
    """Two quarters repaired and two still rooted: what is left is the fill of those two."""
    runs: dict[str, tuple[Quarter, ...]] = {"root": ("q12", "q9"), "repair": ("q3", "q6")}
    step = next_on("A2", A2=JointProgress(tacked=True, runs=runs))
    assert step is not None
    assert (step.action, step.quarters) == ("fill", ("q12", "q9"))


def test_what_is_needed_before_finishing_blocks_only_the_last_run() -> None:
    """The root may be run; the fill waits for what has to be there before the seam is finished."""
    late = cart(('step = "A1:welded", first', 'step = "A1:finished", first'))
    root, fill = (what_next(late, FrameProgress(joints={"A1": now})) for now in (TACKED, ROOTED))
    assert next(s for s in root if s.joint == "A1").allowed
    waiting = next(s for s in fill if s.joint == "A1")
    assert (waiting.action, waiting.allowed) == ("fill", False)


def test_only_a_seam_that_will_be_hidden_waits_for_a_release() -> None:
    """A1 disappears under the brace and is released; A2 stays open to the eye and is simply done."""
    held = next_on("A1", A1=FINISHED)
    assert held is not None
    assert (held.action, held.allowed) == ("release", True)
    assert next_on("A2", A2=FINISHED) is None


def test_a_fitting_is_tacked_and_filled_in_one_run() -> None:
    """A joint with one kind of run has no root."""
    step = next_on("B1", B1=TACKED)
    assert step is not None
    assert (step.action, step.step) == ("fill", "B1:finished")


states = st.sampled_from([JointProgress(), TACKED, ROOTED, FINISHED, FINISHED.model_copy(update={"released": True})])


@given(st.fixed_dictionaries({joint.id: states for joint in DESIGN.joints}), st.booleans())
def test_no_allowed_step_breaks_a_link(joints: dict[str, JointProgress], checked: bool) -> None:
    """Whatever has been done, what is allowed waits for nothing, and what waits names what is missing."""
    done = FrameProgress(joints=joints, geometry={"C1": "good"} if checked else {})
    waits = [(link.step, link.first) for link in links(DESIGN)]
    for step in what_next(DESIGN, done):
        missing = {first for later, first in waits if later == step.step and not is_done(first, done)}
        named = {reason.first for reason in step.blocked_by}
        assert step.allowed == (not named)
        assert {first for first in missing if not first.startswith(step.joint)} <= named
        assert all(not is_done(first, done) for first in named)
