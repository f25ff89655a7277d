"""Figures of an np-chart of 50 lots of 200 wafers, printed by the R package qcc 2.7 on a public page (read)."""

import pytest

from server.statistics.share_chart import share_chart

DEFECTIVE = [
    8, 7, 11, 3, 6, 11, 4, 4, 5, 8, 8, 6, 7, 6, 10, 7, 9, 5, 6, 8, 8, 10, 4, 11, 4,
    11, 6, 6, 9, 5, 4, 7, 5, 7, 8, 5, 10, 9, 7, 9, 4, 9, 4, 7, 11, 8, 10, 8, 7, 5,
]  # fmt: skip


def test_defectives_per_lot() -> None:
    """Centre 7.14, standard deviation 2.62, limits 15.01184 and 0, no lot beyond; an np-chart is 200 times ours."""
    track = share_chart(DEFECTIVE, [200] * 50, exact=False).track("share")
    assert track.upper[0] is not None
    assert 200 * track.centre == pytest.approx(7.14, abs=5e-3)
    assert 200 * (track.upper[0] - track.centre) / 3 == pytest.approx(2.62, abs=5e-3)
    assert 200 * track.upper[0] == pytest.approx(15.01184, abs=5e-6)
    assert track.lower[0] == 0.0
    assert track.signals == ()
