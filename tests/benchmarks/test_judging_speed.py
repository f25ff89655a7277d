"""Reach of judging, held against the parsing of the same passes in this run, and its growth with the history."""

from server.work.uncollected import uncollected
from tests.benchmarks.judging_speed import everything_s, judging_few, parsing, shopful
from tests.benchmarks.turns import multiple

MOST_PARSINGS = 25.0
MOST_TIMES = 1.2 * 1.1


def test_one_pass() -> None:
    """Building and judging a pass under all rules, tacks and joint included, costs at most 25 parsings of it."""
    # Reading it as its noun, which was the floor, took two parsings when it was held to fifteen, and takes less now.
    # 18 parsings before rules that ask nothing shared their answer, 15 since.
    shop = shopful(40)
    judging, passes = judging_few(shop)
    assert multiple(judging, parsing(shop, passes), MOST_PARSINGS, rounds=50) <= MOST_PARSINGS


def test_ten_times_the_history() -> None:
    """Two hundred frames together take at most a tenth longer than by twenties, and a fifth for a busy machine."""
    # Ten short histories of the same days as the long one hold the same work: papers lapse and limits change with time.
    with uncollected():
        short, long = [shopful(20, first) for first in range(0, 200, 20)], shopful(200)
        taken = multiple([long], short, MOST_TIMES, rounds=2, timed=lambda shops: sum(map(everything_s, shops)))
    assert taken <= MOST_TIMES
