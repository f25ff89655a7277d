"""Reach of judging, held against the reading of the same passes in this run, and its growth with the history."""

from tests.benchmarks.judging_speed import everything_s, judging_us_per_pass, reading_us_per_pass, shopful


def test_one_pass() -> None:
    """Building and judging a pass under all rules, tacks and joint included, costs at most fifteen readings of it."""
    shop = shopful(40)
    assert judging_us_per_pass(shop) <= 15.0 * reading_us_per_pass(shop)


def test_ten_times_the_history() -> None:
    """Ten times the frames take at most eleven times as long, and a fifth for a busy machine."""
    few, many = shopful(20), shopful(200)
    everything_s(few)
    one = min(everything_s(few) for _ in range(5))
    assert min(everything_s(many) for _ in range(3)) <= 1.2 * 11.0 * one
