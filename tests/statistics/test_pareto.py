"""Kinds of fault by frequency."""

import pytest

from server.statistics.errors import UnusableInput
from server.statistics.pareto import pareto_chart
from server.statistics.share_interval import share_interval


def test_order_and_running_share() -> None:
    """Bars fall, kinds alike in count stand by name, and the running share ends at one."""
    chart = pareto_chart({"gap": 2, "colour": 9, "crater": 4, "bend": 2, "leak": 0})
    assert [bar.kind for bar in chart.bars] == ["colour", "crater", "bend", "gap", "leak"]
    assert [bar.running_share for bar in chart.bars] == [9 / 17, 13 / 17, 15 / 17, 1.0, 1.0]
    assert chart.total == 17


def test_shares_have_exact_intervals() -> None:
    """Each bar carries the exact interval of its share of all."""
    assert pareto_chart({"colour": 9, "gap": 3}).bars[0].share == share_interval(9, 12)


def test_nothing_found() -> None:
    """No fault at all cannot be ordered."""
    with pytest.raises(UnusableInput, match="at least one fault"):
        pareto_chart({"colour": 0})
