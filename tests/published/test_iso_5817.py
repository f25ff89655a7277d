"""Limits of imperfections as ISO 5817 prints them, each row read in a copy."""

import pytest

from server.facts.imperfections import Level, WeldSize, published_imperfections
from server.pages.calculators.imperfections import imperfections_page

LEVELS: tuple[Level, ...] = ("B", "C", "D")


def allowed(kind: str, wall_mm: float = 2.0, bead_mm: float = 4.0) -> list[float | None]:
    known = published_imperfections()[1]
    size = WeldSize(wall_mm, bead_mm, wall_mm)
    return [known[kind].allowed(level, size).high_mm for level in LEVELS]


@pytest.mark.parametrize(
    ("found_mm", "words"),
    [("0.15", ("outside", "within", "within")), ("0.25", ("outside", "outside", "within"))],
)
def test_undercut_of_a_2_mm_wall(found_mm: str, words: tuple[str, ...]):
    """A short undercut of 0.15 mm is refused at B only, of 0.25 mm at B and C."""
    asked = {"wall_mm": "2", "kind": "undercut", "found_mm": found_mm, "doubt_mm": "0.001"}
    held = [imperfections_page(asked | {"level": level}).held for level in LEVELS]
    assert tuple(each.word for each in held if each) == words


def test_undercut_of_a_6_mm_wall():
    """Over 3 mm: 0.30, 0.50 and 1.0 mm."""
    assert allowed("undercut", wall_mm=6.0) == pytest.approx([0.30, 0.50, 1.0])


@pytest.mark.parametrize(("wall_mm", "level_b"), [(3.0, None), (3.01, 0.1505)])
def test_level_b_changes_at_3_mm(wall_mm: float, level_b: float | None):
    """Up to 3 mm no undercut at B, above it a twentieth of the wall."""
    assert allowed("undercut", wall_mm=wall_mm)[0] == pytest.approx(level_b)


def test_excess_weld_metal():
    """A bead 4 mm wide may stand 1.4, 1.6 or 2.0 mm high."""
    assert allowed("excess_weld", bead_mm=4.0) == pytest.approx([1.4, 1.6, 2.0])


def test_excess_penetration_of_a_thin_wall():
    """Up to 3 mm and 3 mm wide: 1.3, 1.9 and 2.8 mm."""
    assert allowed("excess_penetration", bead_mm=3.0) == pytest.approx([1.3, 1.9, 2.8])


def test_surface_pore():
    """At 2 mm only D allows one, of 0.6 mm."""
    assert allowed("surface_pore") == [None, None, pytest.approx(0.6)]


@pytest.mark.parametrize("kind", ["crack", "no_fusion"])
def test_what_no_level_allows(kind: str):
    """No crack and no lack of fusion at any level, and a smallest one is outside."""
    assert allowed(kind) == [None, None, None]
    held = imperfections_page({"kind": kind, "level": "D", "found_mm": "0.1"}).held
    assert held is not None
    assert held.word == "outside"
