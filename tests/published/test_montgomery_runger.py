"""Figures of Montgomery and Runger, Applied Statistics and Probability for Engineers, example 16-4 (read)."""

import pytest

from server.statistics.share_chart import share_chart


def test_share_of_defectives() -> None:
    """800 defectives in 20 samples of 100: share .40, limits .55 and .25."""
    track = share_chart([40] * 20, [100] * 20, exact=False).track("share")
    assert track.centre == pytest.approx(0.40, abs=0.005)
    assert track.upper[0] == pytest.approx(0.55, abs=0.005)
    assert track.lower[0] == pytest.approx(0.25, abs=0.005)
