"""Figures of Brook and Evans, Biometrika 59 (1972) 539, as repeated in a public R package (read)."""

import pytest

from server.statistics.run_length import cusum_run_length


@pytest.mark.parametrize(("shift", "printed"), [(0.0, 117.59), (1.5, 3.75)])
def test_run_length(shift: float, printed: float) -> None:
    """Mean run lengths of the one-sided cusum with allowance 0.5 and decision 3."""
    assert cusum_run_length(shift, 0.5, 3.0, sides=1) == pytest.approx(printed, abs=0.01)
