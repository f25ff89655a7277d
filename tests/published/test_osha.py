"""Figures of OSHA as printed: filter shades, air short of oxygen, rooms that need mechanical ventilation."""

import pytest

from server.facts.published_safety import safety_figures


@pytest.mark.parametrize(("current_a", "shade"), [(49, 8), (120, 8), (150, 10), (200, 10), (600, None)])
def test_least_shade(current_a: float, shade: int | None):
    """29 CFR 1910.133(a)(5), gas tungsten arc: 8 below 150 A, 10 from there to 500 A, nothing said above."""
    assert safety_figures().least_shade(current_a) == shade


@pytest.mark.parametrize(("oxygen_percent", "short"), [(19.4, True), (19.5, False)])
def test_short_of_oxygen(oxygen_percent: float, short: bool):
    """29 CFR 1910.146: deficient below 19.5 %."""
    assert safety_figures().lacks_oxygen(oxygen_percent) is short


@pytest.mark.parametrize(
    ("room_m3", "ceiling_m", "fan"), [(280, 6, True), (400, 4.8, True), (284, 5, False), (400, 6, False)]
)
def test_ventilation(room_m3: float, ceiling_m: float, fan: bool):
    """29 CFR 1910.252(c)(2): under 284 m³ for each welder, or under 5 m, at least 57 m³/min for each."""
    assert safety_figures().needs_fresh_air(room_m3, ceiling_m) is fan
    assert safety_figures().fresh_air_m3_per_min == 57
