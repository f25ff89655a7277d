"""Rates of few claims are written out, so that a table can be read."""

from server.pages.joint_life.page import JointLifePage
from server.statistics.interval import Interval
from server.work.joint_life import JointLife, Rate


def test_a_rate_is_written_without_powers_of_ten():
    """Three digits that count, whatever the size: 7 004 to 1000 joint-years is 7,000 and not 7e+03."""
    nothing = JointLife("", "", (), (), None, None, None, "", (), 1)
    page = JointLifePage(nothing, every=False)
    rate = Rate("D", "A", 1, 0, 0.5, Interval(0.0, 0.0, 7.004, 0.95))
    assert page.rate_words(rate) == "0 (0 to 7,000)"
    assert page.rate_words(rate._replace(rate=Interval(0.0666, 0.00169, 0.9996, 0.95))) == "66.6 (1.69 to 1,000)"
