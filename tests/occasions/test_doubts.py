"""How sure a recorded value is."""

from datetime import date

import pytest

from server.facts.equipment import Acceptance, Instrument
from server.facts.measured import Measured
from server.occasions.doubts import Doubts

METER = Instrument.model_validate(
    {"id": "AN", "title": "meter", "reads": [{"quantity": "oxygen", "fixed": "1", "share": "0.05", "unit": "ppm"}]}
)
FIGURE = {"id": "A", "name": "setting_uncertainty", "unit": "%", "value": "2.5", "source": "panel"}
SETTING = {"setting_uncertainty": Acceptance.model_validate(FIGURE | {"valid_from": date(2030, 1, 1)})}
DOUBTS = Doubts([METER])


def doubt(name: str, value: str, how: str, by: str | None = None, accept=SETTING) -> float | None:
    measured = Measured.model_validate({"value": value, "unit": "x", "how": how, "by": by})
    return DOUBTS.figure(name, measured, "e", accept).u


def test_a_reading_has_the_doubt_of_its_instrument_at_that_reading():
    """Root of squares of one ppm and five per cent: 2.69 at 50 ppm, 1.0 at nothing; an unknown meter has none."""
    assert doubt("oxygen", "50", "read", "AN") == pytest.approx(2.6926, abs=1e-4)
    assert doubt("oxygen", "0", "read", "AN") == 1.0
    assert doubt("oxygen", "50", "read", "OLD") is None
    assert doubt("volts", "10", "read", "AN") is None


def test_typed_from_an_instrument_is_as_sure_as_the_instrument():
    """What was typed from a named instrument has that instrument's doubt; typed from nothing has none on file."""
    assert doubt("oxygen", "50", "typed", "AN") == pytest.approx(2.6926, abs=1e-4)
    assert doubt("oxygen", "50", "typed") is None


def test_a_setting_has_the_shops_figure_also_when_it_was_inherited():
    """2.5 % of what the panel said; without the shop's figure nobody knows."""
    assert doubt("peak_current", "80", "set") == pytest.approx(2.0)
    assert doubt("peak_current", "80", "inherited") == pytest.approx(2.0)
    assert doubt("peak_current", "80", "set", accept={}) is None
    assert doubt("interpass", "40", "inherited") is None


@pytest.mark.parametrize("name", ["tungsten", "cup", "rod"])
def test_what_is_picked_from_a_drawer_has_no_doubt(name: str):
    """A tungsten, a cup and a rod are picked, not measured."""
    assert doubt(name, "1.6", "typed") == 0.0
