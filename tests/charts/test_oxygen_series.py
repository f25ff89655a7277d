"""Every pass with a reading is one mark in the order it happened, above its limit a square, at or below it a ring."""

from server.charts.oxygen_series import oxygen_series
from tests.documents.sample_dossier import a_dossier


def limited(high: float) -> dict[str, object]:
    told = a_dossier(3)
    told["joints"][0]["attempts"][0]["verdicts"] = [{"question": "purge-o2", "high": high}]
    return told


def test_each_reading_is_a_ring_below_its_limit_and_a_square_above_it():
    """Three passes at 8 ppm: rings under a limit of 20, squares over a limit of 5, a limit line to each."""
    below, above = oxygen_series(limited(20.0))["oxygen"], oxygen_series(limited(5.0))["oxygen"]
    assert (below.count("<circle"), below.count("<rect")) == (3, 0)
    assert (above.count("<circle"), above.count("<rect")) == (0, 3)
    assert below.count('stroke-width="1.2"') == 3


def test_without_a_limit_there_is_no_limit_line():
    """Nothing was asked, so no limit is drawn."""
    assert oxygen_series(a_dossier(3))["oxygen"].count('stroke-width="1.2"') == 0


def test_without_a_reading_there_is_no_drawing():
    """A frame from before the record has none."""
    assert oxygen_series({"joints": []}) == {}
