"""What only moves with its design is reckoned once."""

import time

import pytest

from server.work.reckoned import is_reckoning, reckoned, reckoned_beside


def test_the_same_key_is_reckoned_once() -> None:
    """Asked again under the same key, the figure is not reckoned anew; another key is another figure."""
    times = []

    def reckon() -> int:
        times.append(1)
        return len(times)

    assert [reckoned(("a", 1), reckon), reckoned(("a", 1), reckon), reckoned(("a", 2), reckon)] == [1, 1, 2]


def test_it_does_not_grow_without_end() -> None:
    """After hundreds of other keys an old figure may be reckoned anew, and comes out the same."""
    assert reckoned("old", lambda: 7) == 7
    for number in range(600):
        reckoned(("many", number), lambda: 0)
    assert reckoned("old", lambda: 7) == 7


def test_what_fails_beside_is_told_as_none_and_stops_nothing(caplog: pytest.LogCaptureFixture) -> None:
    """A formula that breaks costs its own figure, is logged, and the next one is still reckoned."""

    def broken() -> int:
        raise ZeroDivisionError

    reckoned_beside("broken", broken)
    reckoned_beside("whole", lambda: 5)
    last = time.monotonic() + 180
    while is_reckoning():
        assert time.monotonic() < last
        time.sleep(0.01)
    assert (reckoned_beside("broken", broken), reckoned_beside("whole", lambda: 6)) == (None, 5)
    assert "reckoning broken failed" in caplog.text
