"""When a device started, in true time, so that its steady counter tells true times; and how far that may be off."""

from bisect import bisect_left
from dataclasses import dataclass
from statistics import median_low
from typing import NamedTuple

from server.facts.clock import ClockPair

# Sent within a minute of the tap, a device's clock has hardly been set in between.
_PROMPT_MS = 60_000
# Sendings agree when they put the start within ten seconds of each other; networks are not slower for long.
_TOGETHER_MS = 10_000
_LEAST_ERROR_MS = 500
# Quartz runs up to 50 millionths fast or slow (data sheets say 20 to 100; common practice, no single source).
_DRIFT = 50e-6
_UNHEARD_ERROR_MS = 3_600_000
_FAR_MS = 1 << 62
# Made for every sending; past the named fields' own checking it costs half.
_new = tuple.__new__


class Tapped(NamedTuple):
    """One sending: the counter at the tap, how long it waited, and the true start of the device it speaks for."""

    mono_ms: int
    wait_ms: int
    start_ms: int
    received_ms: int
    device_ms: int

    @classmethod
    def of(cls, pair: ClockPair) -> "Tapped":
        """Read a clock pair that has a counter and a time of sending."""
        _, _, _, mono_ms, device_ms, sent_ms, received_ms = pair
        mono = mono_ms or 0
        wait = (sent_ms or 0) - device_ms
        return _new(cls, (mono, wait, received_ms - wait - mono, received_ms, device_ms))


@dataclass(frozen=True, slots=True)
class BootClock:
    """One boot of a device: true time is `true_at_start_ms` plus the counter; `heard_at` are counters at contacts."""

    true_at_start_ms: int
    least_error_ms: int
    heard_at: tuple[int, ...]

    def error_ms(self, mono_ms: int) -> int:
        """Give how far a true time at this counter may be off: the contact's own error, and drift away from it."""
        heard = self.heard_at
        place = bisect_left(heard, mono_ms)
        after = heard[place] - mono_ms if place < len(heard) else _FAR_MS
        before = mono_ms - heard[place - 1] if place else _FAR_MS
        return self.least_error_ms + int((after if after < before else before) * _DRIFT)


def boot_clock(sendings: list[Tapped], next_heard_ms: int | None) -> BootClock | None:
    """Settle when a boot started; what was sent only after the next boot spoke says nothing about this one's clock."""
    own = [each for each in sendings if next_heard_ms is None or each.received_ms < next_heard_ms]
    if not own:
        return _never_heard(sendings) if sendings else None
    trusted = _most_trusted(own)
    middle = median_low([each.start_ms for each in trusted])
    together = [each.start_ms for each in trusted if abs(each.start_ms - middle) <= _TOGETHER_MS]
    # A network can only delay, so the earliest start is nearest to the truth.
    start = min(together)
    slack = int(min(each.wait_ms for each in trusted) * _DRIFT) if trusted[0].wait_ms > _PROMPT_MS else 0
    agreeing = sorted(each.mono_ms + each.wait_ms for each in own if abs(each.start_ms - start) <= _TOGETHER_MS)
    return BootClock(start, max(middle - start, _LEAST_ERROR_MS) + slack, tuple(agreeing))


def _most_trusted(own: list[Tapped]) -> list[Tapped]:
    prompt = [each for each in own if 0 <= each.wait_ms <= _PROMPT_MS]
    if prompt:
        return prompt
    waited = sorted((each for each in own if each.wait_ms >= 0), key=_wait)
    if not waited:
        return sorted(own, key=_wait, reverse=True)[:1]
    return [each for each in waited if each.wait_ms <= 2 * waited[0].wait_ms]


def _never_heard(sendings: list[Tapped]) -> BootClock:
    """A boot that never reached us under its own clock: its clock is believed, with an hour of doubt at least."""
    last = max(sendings)
    start = last.device_ms - last.mono_ms
    beyond = max(0, start + last.mono_ms - last.received_ms)
    return BootClock(start - beyond, _UNHEARD_ERROR_MS + beyond, (last.mono_ms,))


def _wait(sending: Tapped) -> int:
    return sending.wait_ms
