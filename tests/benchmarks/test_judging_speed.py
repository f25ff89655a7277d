"""Reach of judging, held against the parsing of the same passes in this run, and its growth with the history."""

from server.work.uncollected import uncollected
from tests.benchmarks.judging_speed import everything_s, judging_us_per_pass, parsing_us_per_pass, shopful


def test_one_pass() -> None:
    """Building and judging a pass under all rules, tacks and joint included, costs at most 25 parsings of it."""
    shop = shopful(40)
    # Reading it as its noun, which was the floor, took two parsings when it was held to fifteen, and takes less now.
    # 18 parsings before rules that ask nothing shared their answer, 15 since.
    assert judging_us_per_pass(shop) <= 25.0 * parsing_us_per_pass(shop)


def test_ten_times_the_history() -> None:
    """Ten times the frames take at most eleven times as long, and a fifth for a busy machine."""
    # Ten short histories of the same days as the long one hold the same work: papers lapse and limits change with time.
    with uncollected():
        short, long = [shopful(20, first) for first in range(0, 200, 20)], shopful(200)
        taken = [(sum(map(everything_s, short)), everything_s(long)) for _ in range(4)]
    assert min(each for _, each in taken) <= 1.2 * 1.1 * min(each for each, _ in taken)
