"""What the generator knows of the designs is what their drawings say."""

from pathlib import Path

import pytest

from demo_data.generator.joints import COVERED, MEMBERS, STAGES, VOLUMES_L, seam, setup_of
from server.facts.design import Design
from server.plan.reading import read_design
from tests.house.tree import ROOT

NAMES = ("lst", "whb", "plv")


@pytest.fixture(params=NAMES)
def design(request: pytest.FixtureRequest) -> Design:
    """Each design as drawn."""
    file = Path(ROOT, "demo_data", "designs", f"{request.param}.toml")
    return read_design(file.read_text(encoding="utf-8"), file.name)


def test_seams_are_those_of_the_drawing(design: Design) -> None:
    """Seam length, procedure and how far the inside is seen are the drawing's, for every joint and no other."""
    told = {joint for stage in STAGES[design.name] for joint in stage}
    assert told == {joint.id for joint in design.joints}
    for joint in design.joints:
        known = seam(joint.id)
        assert (known.seam_mm, known.procedure, known.inside) == (joint.seam_mm, joint.procedure, joint.inside)
        assert known.structural == joint.structural
        assert joint.id in STAGES[design.name][int(joint.stage[1])]


def test_what_is_hidden_is_what_the_drawing_covers(design: Design) -> None:
    """The seams that are released before they are hidden are those another part covers."""
    assert set(COVERED[design.name]) == {cover.seam for cover in design.covers}


def test_set_ups_and_pieces_are_drawn(design: Design) -> None:
    """Every stage has a set-up of the drawing with its volume; every piece with a heat is a member of it."""
    setups = {setup.id: setup for setup in design.setups}
    for stage in range(5):
        drawn = setups[setup_of(design.name, stage)]
        assert tuple(drawn.volume_l.values()) == VOLUMES_L[design.name][stage]
    assert set(MEMBERS[design.name]) <= {member.id for member in design.members}
