"""Bands of time keep their order, their length and their gaps; the scale names months inside the strip."""

from datetime import date

from server.charts.time_strip import WIDTH, Band, Moment, lay_time


def day(text: str) -> int:
    return date.fromisoformat(text).toordinal()


def test_a_gap_between_two_bands_stays_a_gap():
    """Thirty days held, thirty days nothing, thirty days held: thirds of the strip."""
    laid = lay_time([Band(100, 129, "held", "a"), Band(160, 189, "held", "b")])
    assert [(each.at, each.width) for each in laid.bands] == [(0.0, WIDTH / 3), (WIDTH * 2 / 3, WIDTH / 3)]


def test_a_mark_beyond_the_bands_widens_the_strip():
    """Today stands on the strip even when everything held ended long ago."""
    laid = lay_time([Band(100, 149, "held", "a")], [Moment(200, "today", "today")])
    assert (laid.bands[0].width, laid.marks[0].at) == (WIDTH / 2, WIDTH)


def test_the_scale_names_months_or_years():
    """A quarter of a year is marked by months, ten years by years."""
    short = lay_time([Band(day("2031-01-15"), day("2031-04-10"), "held", "")])
    assert [words for _, words in short.scale] == ["Feb 2031", "Mar 2031", "Apr 2031"]
    long = lay_time([Band(day("2021-06-01"), day("2031-04-10"), "held", "")])
    assert [words for _, words in long.scale][:2] == ["2022", "2023"]
