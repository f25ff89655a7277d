"""The steps of a frame and whether they are behind it."""

import pytest

from server.facts.progress import FrameProgress, JointProgress
from server.plan.steps import every_step, is_done, landing_title, split_step
from tests.plan.cart import cart

DONE = FrameProgress(
    joints={
        "A1": JointProgress(tacked=True),
        "A2": JointProgress(tacked=True, runs={"root": ("q12",)}),
        "A3": JointProgress(tacked=True, runs={"root": ("q12",)}, finished=True, released=True),
    },
    geometry={"C1": "good", "C2": "failed"},
)


@pytest.mark.parametrize(
    ("step", "behind"),
    [
        ("A1:tacked", True),
        ("A1:welded", False),
        ("A2:welded", True),
        ("A2:finished", False),
        ("A3:finished", True),
        ("A3:released", True),
        ("A4:tacked", False),
        ("C1", True),
        ("C2", False),
        ("C3", False),
    ],
)
def test_a_step_is_behind_the_frame_or_not(step: str, behind: bool) -> None:
    """A state is reached when its evidence is there; a failed or missing check is not done."""
    assert is_done(step, DONE) is behind


def test_every_seam_has_four_steps_and_every_check_one() -> None:
    """Six joints and one check make twenty-five steps."""
    steps = every_step(cart())
    assert len(steps) == len(set(steps)) == 25
    assert {split_step(step)[1] for step in steps} == {"tacked", "welded", "finished", "released", ""}


def test_what_lands_is_named_by_its_title() -> None:
    """The first part of a joint is the one that lands."""
    design = cart()
    assert landing_title(design, design.joints[3]) == "brace"
