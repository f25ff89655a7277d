"""Stretches over which a device's clock was off by the same amount, found by its clock against its steady counter."""

from collections.abc import Iterator
from itertools import pairwise
from statistics import median_low

from server.facts.clock import ClockPair, ClockSegment
from server.occasions.boot_clock import BootClock

# Automatic time nudges a clock by less than this; more is somebody, or the network, setting it.
_STEP_MS = 2_000
_MENDED_MS = 10_000


def segments_of(device: str, boot: str, pairs: list[ClockPair], clock: BootClock) -> list[ClockSegment]:
    """Split one boot wherever clock and counter part by a step; each stretch with its offset and its own entries."""
    runs = list(_runs(_first_sendings(pairs)))
    nexts = [_true_ms(run[0], clock) for run in runs[1:]]
    segments = []
    for number, run in enumerate(runs):
        offset = median_low([_ahead_ms(pair) for pair in run]) - clock.true_at_start_ms
        since = clock.true_at_start_ms if number == 0 else _true_ms(run[0], clock)
        until = nexts[number] if number < len(nexts) else _true_ms(run[-1], clock)
        entries = tuple(pair.seq for pair in run)
        after = [
            pair.received_ms
            for pair in run
            if pair.sent_ms is not None and abs(pair.sent_ms - pair.received_ms - offset) > _MENDED_MS
        ]
        until = min([until, *after])
        segments.append(ClockSegment(device, boot, since, until, offset, clock.least_error_ms, entries, len(after)))
    return segments


def _first_sendings(pairs: list[ClockPair]) -> list[ClockPair]:
    first: dict[int, ClockPair] = {}
    for pair in pairs:
        known = first.get(pair.seq)
        if known is None or pair.received_ms < known.received_ms:
            first[pair.seq] = pair
    return [first[seq] for seq in sorted(first)]


def _runs(pairs: list[ClockPair]) -> Iterator[list[ClockPair]]:
    ahead = [_ahead_ms(pair) for pair in pairs]
    starts = [place for place in range(1, len(pairs)) if abs(ahead[place] - ahead[place - 1]) > _STEP_MS]
    for start, end in pairwise((0, *starts, len(pairs))):
        yield pairs[start:end]


def _ahead_ms(pair: ClockPair) -> int:
    return pair.device_ms - (pair.mono_ms or 0)


def _true_ms(pair: ClockPair, clock: BootClock) -> int:
    return (pair.mono_ms or 0) + clock.true_at_start_ms
