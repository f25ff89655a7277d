"""The demo shop's designs: they read, their volumes add up, their pictures are clear."""

import math
from itertools import combinations
from pathlib import Path

import pytest

from server.facts.design import Design
from server.plan.labels import boxes_meet
from server.plan.order import one_order
from server.plan.picture import side_view
from server.plan.purge import setup_of
from server.plan.reading import read_design
from server.plan.space import centre_line, length_mm
from server.plan.volumes import setup_volume_l

FOLDER = Path(__file__).resolve().parents[2] / "demo_data" / "designs"
DESIGNS = [read_design(file.read_text(encoding="utf-8"), file.name) for file in sorted(FOLDER.glob("*.toml"))]
SIZES = [(design, size) for design in DESIGNS for size in design.sizes]
every_size = pytest.mark.parametrize(("design", "size"), SIZES, ids=lambda x: x if isinstance(x, str) else x.name)
every_design = pytest.mark.parametrize("design", DESIGNS, ids=lambda design: design.name)


def test_there_are_three_designs_with_their_joints() -> None:
    """Two cycles with fourteen fittings each and a chair with six."""
    counted = {d.name: (sum(j.structural for j in d.joints), sum(not j.structural for j in d.joints)) for d in DESIGNS}
    assert counted == {"LST": (18, 14), "PLV": (16, 6), "WHB": (20, 14)}


@every_size
def test_stated_volumes_are_those_of_bores_and_lengths(design: Design, size: str) -> None:
    """Every set-up's litres, as the shop states them, are the computed ones rounded to a hundredth."""
    for setup in design.setups:
        assert f"{setup_volume_l(design, setup, size):.2f}" == f"{setup.volume_l[size]:.2f}", setup.id


@every_size
def test_stated_lengths_are_those_of_the_drawing(design: Design, size: str) -> None:
    """A straight or bent tube's length is its centre line less what the members it lands on take away."""
    landing = {m.id: [j for j in design.joints if j.parts[0] == m.id] for m in design.members}
    radius = {m.id: m.od_mm / 2 for m in design.members}
    for member in design.members:
        if member.shape != "tube" or len(member.between) < 2 or not landing[member.id]:
            continue
        taken = sum(radius[j.parts[1]] if j.landing_mm is None else j.landing_mm for j in landing[member.id])
        drawn = length_mm(centre_line(design, size, member)) - taken
        assert drawn == pytest.approx(member.length_mm[size], abs=1.6), member.id


@every_design
def test_the_usual_order_breaks_no_link(design: Design) -> None:
    """Finished in the order the shop writes, no seam is hidden before its time."""
    assert set(design.order) == {joint.id for joint in design.joints}
    place = {joint: at for at, joint in enumerate(design.order)}
    assert all(place[cover.seam] < place[cover.by] for cover in design.covers)
    assert one_order(design)


@every_design
def test_every_joint_has_a_set_up(design: Design) -> None:
    """Whatever is welded is purged: each stage has its set-up, and what it joins is in it."""
    for joint in design.joints:
        setup = setup_of(design, joint.id)
        assert setup is not None
        closed = {member.id for member in design.members if member.closed}
        assert set(joint.parts) & closed <= set(setup.members), joint.id


@every_size
def test_the_picture_is_clear(design: Design, size: str) -> None:
    """No two marks touch and no two names overlap, in any size."""
    view = side_view(design, size)
    marks = [mark for mark in view.marks if mark.structural]
    assert all(math.dist(a.centre, b.centre) > a.radius_mm + b.radius_mm for a, b in combinations(marks, 2))
    assert not any(boxes_meet(a.label, b.label) for a, b in combinations(view.marks, 2))


def test_the_step_through_frame_hides_other_quarters_than_the_touring_frame() -> None:
    """With its top tube low, it leaves the collar seam open above; its gusset hides the lower quarter of J03."""
    covers = {d.name: {(c.seam, c.quarter, c.by) for c in d.covers} for d in DESIGNS}
    assert covers["LST"] - covers["WHB"] == {("J02", "q12", "J06")}
    assert covers["WHB"] - covers["LST"] == {("J03", "q6", "J19"), ("J03", "q6", "J20")}
