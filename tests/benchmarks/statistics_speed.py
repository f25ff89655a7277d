"""Times of the statistics room, printed: `python -m tests.benchmarks.statistics_speed`."""

import random
from collections.abc import Callable

from scipy.special import ndtr

from server.statistics.bernoulli_cusum import bernoulli_cusum_chart
from server.statistics.conformity import conform
from server.statistics.conformity_of_many import conform_many
from server.statistics.cusum import cusum_chart
from server.statistics.ewma import ewma_chart
from server.statistics.individuals import individuals_chart
from server.statistics.run_length import cusum_run_length
from server.statistics.screen import screen
from server.statistics.share_chart import share_chart
from server.statistics.share_interval import share_interval
from server.statistics.survival import kaplan_meier
from server.statistics.two_by_two import exact_test
from server.statistics.weibull import weibull_fit
from tests.benchmarks.test_conformity_speed import DOUBTS, READINGS
from tests.benchmarks.turns import seconds

DRAWS = random.Random(1)
SERIES = [DRAWS.gauss(40.0, 3.0) for _ in range(5000)]
FAULTY = [DRAWS.random() < 0.03 for _ in range(5000)]
LIVES = [DRAWS.weibullvariate(10.0, 2.0) for _ in range(10_000)]
ENDED = [life < 8.0 for life in LIVES]
WORK: dict[str, Callable[[], object]] = {
    "scipy.special.ndtr of a million readings": lambda: ndtr(READINGS),
    "conform_many, a million readings, one uncertainty": lambda: conform_many(READINGS, None, 50.0, 2.5),
    "conform_many, a million readings, one uncertainty each": lambda: conform_many(READINGS, None, 50.0, DOUBTS),
    "conform, 5,000 readings one at a time": lambda: [conform(x, None, 50.0, 2.5) for x in SERIES],
    "individuals and moving range, 5,000 readings": lambda: individuals_chart(SERIES),
    "ewma, 5,000 readings": lambda: ewma_chart(SERIES, 40.0, 3.0),
    "cusum, 5,000 readings": lambda: cusum_chart(SERIES, 40.0, 3.0),
    "Bernoulli cusum with both run lengths, 5,000 joints": lambda: bernoulli_cusum_chart(FAULTY, 0.03, 0.09),
    "share chart with exact limits, 500 frames": lambda: share_chart([0, 1] * 250, [8] * 500),
    "exact interval of a share": lambda: share_interval(3, 60),
    "exact test of two groups": lambda: exact_test(3, 12, 4, 188),
    "screen of 20 cylinders": lambda: screen({str(each): (each % 3, 10) for each in range(20)}),
    "Kaplan-Meier, 10,000 lives": lambda: kaplan_meier(LIVES, ENDED),
    "Weibull, 38 lives": lambda: weibull_fit(LIVES[:38], ENDED[:38]),
    "Weibull, 10,000 lives": lambda: weibull_fit(LIVES, ENDED),
    "run length of a cusum": lambda: cusum_run_length(0.0),
}


def main() -> None:
    """Print the best of seven for each piece of work."""
    for name, work in WORK.items():
        print(f"| {name} | {1e3 * min(seconds(work) for _ in range(7)):.3f} |")


if __name__ == "__main__":
    main()
