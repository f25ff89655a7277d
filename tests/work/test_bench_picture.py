"""The side view with names large enough for a tablet."""

from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from server.plan.reading import read_design
from server.work.bench_picture import picture_told

DESIGNS = Path(__file__).resolve().parents[2] / "demo_data" / "designs"


def told(name: str) -> tuple[dict[str, Any], set[str], set[str]]:
    design = read_design((DESIGNS / f"{name}.toml").read_text(encoding="utf-8"), name)
    seams = {joint.id for joint in design.joints if joint.structural}
    return picture_told(design, design.sizes[1]), seams, {joint.id for joint in design.joints} - seams


@pytest.mark.parametrize("name", ["lst", "whb", "plv"])
def test_every_joint_is_marked_and_every_seam_named(name: str) -> None:
    """All joints have a mark; seams have a name beside it; fittings are named only when tapped."""
    picture, seams, fittings = told(name)
    assert {mark["joint"] for mark in picture["marks"]} == seams | fittings
    assert {mark["joint"] for mark in picture["marks"] if mark["label"]} == seams


@pytest.mark.parametrize("name", ["lst", "whb", "plv"])
def test_no_name_lies_on_another(name: str) -> None:
    """Even with its longest word beside it no name overlaps another, and all lie inside the picture."""
    picture, _, _ = told(name)
    labels = [mark["label"] for mark in picture["marks"] if mark["label"]]
    assert [(a, b) for a, b in combinations(labels, 2) if _meet(a, b)] == []
    (left, low), (right, high) = picture["low"], picture["high"]
    assert all(left <= label["centre"][0] <= right and low <= label["centre"][1] <= high for label in labels)


def _meet(a: dict[str, Any], b: dict[str, Any]) -> bool:
    wide = (a["width_mm"] + b["width_mm"]) / 2
    high = (a["height_mm"] + b["height_mm"]) / 2
    return abs(a["centre"][0] - b["centre"][0]) < wide and abs(a["centre"][1] - b["centre"][1]) < high


def test_a_name_is_as_large_as_twenty_pixels() -> None:
    """In the 790 by 490 px a tablet lying has for it, letters come out at 20 px or more and marks at 16 across."""
    picture, _, _ = told("lst")
    (left, low), (right, high) = picture["low"], picture["high"]
    scale = min(790 / (right - left), 490 / (high - low))
    assert min(mark["label"]["height_mm"] for mark in picture["marks"] if mark["label"]) * scale >= 20
    assert min(mark["radius_mm"] for mark in picture["marks"] if mark["label"]) * 2 * scale >= 16
