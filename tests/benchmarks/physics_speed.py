"""Times of the physics room beside their bare floors, printed: `python -m tests.benchmarks.physics_speed`."""

import math
import tracemalloc
from collections.abc import Callable

import numpy as np
from scipy.linalg import expm

from server.physics.cooling_weld import TubeWeld
from server.physics.hold_time import hold_time_s
from server.physics.purge_cells import part_into_cells
from server.physics.purge_flow import settle_flow
from server.physics.purge_forecast import forecast_purge
from server.physics.quarters import best_order
from server.physics.trace_energy import trace_energy
from server.physics.trace_file import TraceHeaders, read_binary_trace, read_text_trace, write_binary_trace
from tests.benchmarks.turns import seconds
from tests.physics.frame_purge import STAYS, frame

WELD = TubeWeld(100.0, 120.0, 25.0, 0.9, math.pi * 34.0)


def pulsed_minute() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """A minute at 20 kHz: six beads of a pulsed arc with noise, and pauses between them."""
    draws = np.random.default_rng(1)
    time_s = np.arange(1_200_000) / 20_000.0
    on = time_s % 10.0 < 8.0
    amps = np.where((time_s % 0.5 < 0.2), 120.0, 30.0) * on + draws.normal(0.0, 0.5, time_s.size)
    return time_s, amps, np.where(on, 10.0 + 0.01 * amps, 60.0)


def bare_pass(time_s: np.ndarray, amps: np.ndarray, volts: np.ndarray) -> float:
    """The yardstick: are they numbers, are the steps there, the product, and its trapezoid; nothing else."""
    for column in (time_s, amps, volts):
        np.isfinite(column)
    np.diff(time_s)
    return float(np.trapezoid(amps * volts, time_s))


def bare_curve() -> np.ndarray:
    """The yardstick of a purge: nine volumes stepped through 600 moments by one product each, and nothing else."""
    step, state = np.eye(9) * 0.99, np.ones(9)
    for _ in range(600):
        state = step @ state
    return state


def least_of_each(works: dict[str, Callable[[], object]], rounds: int = 9) -> dict[str, float]:
    """The least time of each [s], taken in turns so that a busy machine slows all alike."""
    taken = [{name: seconds(work) for name, work in works.items()} for _ in range(rounds)]
    return {name: min(one[name] for one in taken) for name in works}


def most_extra_bytes(work: Callable[[], object]) -> int:
    """The most memory that a piece of work holds at once beyond what was there before."""
    tracemalloc.start()
    before = tracemalloc.get_traced_memory()[0]
    work()
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return most - before


def works() -> dict[str, Callable[[], object]]:
    """All that is timed, each beside its floor."""
    trace = pulsed_minute()
    narrow = (trace[0], trace[1].astype(np.float32), trace[2].astype(np.float32))
    broken = (trace[0], np.where(np.arange(trace[0].size) % 977 == 0, np.nan, trace[1]), trace[2])
    binary = write_binary_trace(0.0, 5e-5, trace[1], trace[2])
    text = b"time_s,amps,volts\n" + b"\n".join(b"%.5f,%.3f,%.3f" % row for row in zip(*trace, strict=True))
    cells = part_into_cells(frame(), settle_flow(frame()), 8)
    return {
        "bare pass over a minute at 20 kHz, for comparison": lambda: bare_pass(*trace),
        "trace_energy of the same arrays": lambda: trace_energy(*trace),
        "trace_energy, amps and volts in four bytes": lambda: trace_energy(*narrow),
        "trace_energy, one reading in 977 not a number": lambda: trace_energy(*broken),
        "copying the binary form's bytes, for comparison": lambda: bytearray(binary),
        "read_binary_trace of a minute at 20 kHz": lambda: read_binary_trace(binary),
        "splitting the text form's lines, for comparison": text.splitlines,
        "read_text_trace of a minute at 20 kHz (1.2 million rows)": lambda: read_text_trace(text, TraceHeaders()),
        "scipy's exponential of the 9 × 9 matrix, for comparison": lambda: expm(cells.rate_per_s),
        "nine members: flow, arrivals and a curve of 601 points": lambda: forecast_purge(frame(), 20.0),
        "the same with four dead ends of eight cells": lambda: forecast_purge(frame(STAYS), 20.0),
        "hold time with its band": lambda: hold_time_s(WELD, 427.0),
        "best order of quarters": lambda: best_order(WELD, 30.0),
    }


def main() -> None:
    """Print the least of nine for each piece of work, and the memory of the trace."""
    for name, time_s in least_of_each(works()).items():
        print(f"| {name} | {1e3 * time_s:.2f} |")
    trace = pulsed_minute()
    held = most_extra_bytes(lambda: trace_energy(*trace)) / trace[0].nbytes
    print(f"most extra memory of trace_energy: {held:.2f} arrays of the trace's size")


if __name__ == "__main__":
    main()
