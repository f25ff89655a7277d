"""A rare fault is watched at its own usual rate; where a chart would say nothing the page says why."""

from server.pages.charts.faults_page import faults_page
from server.work.fault_series import ANY, JointMark


def joints(*faulty: bool) -> list[JointMark]:
    return [JointMark(at, "F", f"J{at}", 1, each) for at, each in enumerate(faulty)]


def test_a_run_of_faults_lies_beyond_the_limit():
    """Five faulty joints in a row among a hundred signal at the last of them; the usual rate is five in a hundred."""
    page = faults_page((), joints(*[False] * 95, *[True] * 5), ANY, ())
    assert page.watched is not None
    assert round(page.watched.usual, 3) == 0.05
    assert [point.place for point in page.watched.sheet.points if point.beyond][-1] == 99
    assert page.share is not None
    assert page.share.low < 0.05 < page.share.high


def test_without_a_fault_there_is_nothing_to_watch():
    """No faulty joint: no chart, the reason, and still the share with its upper end."""
    page = faults_page((), joints(*[False] * 60), ANY, ())
    assert page.watched is None
    assert "no usual rate" in page.why_not
    assert page.share is not None
    assert page.share.high > 0.05


def test_a_fault_rarer_than_one_in_five_hundred_is_not_charted():
    """One in six hundred: read it by itself."""
    page = faults_page((), joints(*[False] * 599, True), ANY, ())
    assert page.watched is None
    assert "1 joint in 500" in page.why_not


def test_only_the_newest_joints_are_drawn_but_all_are_summed():
    """Of five hundred joints four hundred are drawn; the usual rate is that of all."""
    page = faults_page((), joints(*[True, *[False] * 9] * 50), ANY, ())
    assert page.watched is not None
    assert len(page.joints) == len(page.watched.sheet.points) == 400
    assert page.watched.usual == 0.1
