"""The picture of a recording: beads shaded where they are, the curve inside the box, whatever the file holds."""

import numpy as np
import pytest

from server.pages.traces.picture import trace_pictures
from server.physics.trace_file import write_binary_trace
from server.work.trace_read import read_trace
from tests.work import recordings


def points(text: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in text.split())]


def test_beads_are_shaded_where_they_are() -> None:
    """Amps and volts each show three beads; the first begins a twentieth of the way along, as 2 s of 40 s are."""
    amps, volts = trace_pictures(read_trace(recordings.text()))
    for sheet in (amps, volts):
        left, _, right, _ = sheet.box
        shaded = [curve for curve in sheet.curves if curve.look == "area-bead"]
        assert len(shaded) == len(sheet.moments) == 3
        assert (points(shaded[0].text)[0][0] - left) / (right - left) == pytest.approx(0.05, abs=0.002)
    assert "amps" in amps.up_words
    assert "volts" in volts.up_words


def test_the_height_of_the_curve_is_the_reading() -> None:
    """The top of the amps stands at 40 A: two thirds of an axis half as high again."""
    amps, _ = trace_pictures(read_trace(recordings.text()))
    _, top, _, bottom = amps.box
    highest = min(y for _, y in points(next(curve.text for curve in amps.curves if curve.look == "area-trace")))
    assert (bottom - highest) / (bottom - top) == pytest.approx(40.0 / 60.0, abs=0.01)


def test_gaps_and_infinities_do_not_tear_it() -> None:
    """A recording with not-a-numbers and an infinity in it is drawn with finite places."""
    amps, volts = np.full(2000, 40.0), np.full(2000, 10.0)
    amps[500:700], volts[900] = np.nan, np.inf
    for sheet in trace_pictures(read_trace(write_binary_trace(0.0, 0.01, amps, volts))):
        assert all(np.isfinite(point).all() for curve in sheet.curves for point in points(curve.text))


def test_a_long_recording_is_a_short_picture() -> None:
    """Eighty thousand samples are drawn in at most twelve hundred points."""
    amps, _ = trace_pictures(read_trace(recordings.binary(hz=2000.0)))
    assert len(points(next(curve.text for curve in amps.curves if curve.look == "area-trace"))) <= 1200
