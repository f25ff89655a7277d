"""How far the machine's clock can be believed: whether anything keeps it, whether it jumped, whether it lags."""

import time

import pytest

from server.upkeep import clock_state
from server.upkeep.clock_state import ClockState, ClockWatch

JUMP_S = 3600.0


@pytest.fixture(autouse=True)
def _kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(clock_state, "kept_in_step", lambda: True)


def test_a_clock_that_goes_on_evenly_is_believed():
    """With nothing against it, it says that it is kept in step."""
    state = ClockWatch().state(int(time.time() * 1000))
    assert state.believable
    assert str(state) == "the clock is kept in step"


@pytest.mark.parametrize("by_s", [JUMP_S, -JUMP_S])
def test_a_clock_that_is_set_is_told(monkeypatch: pytest.MonkeyPatch, by_s: float):
    """Set on or back while the service runs, by how much is told, since arrivals before and after do not compare."""
    watch, wall = ClockWatch(), time.time
    monkeypatch.setattr("server.upkeep.clock_state.time.time", lambda: wall() + by_s)
    state = watch.state()
    assert not state.believable
    assert state.jumped_s == pytest.approx(by_s, abs=1)
    assert f"jumped by {by_s:+.0f} s" in str(state)


def test_a_clock_behind_the_record_is_told():
    """The last entry cannot have arrived in an hour's time."""
    state = ClockWatch().state(int((time.time() + JUMP_S) * 1000))
    assert not state.believable
    assert "behind the last entry's arrival; set it right" in str(state)


@pytest.mark.parametrize(
    ("kept", "believed", "said"), [(False, False, "nothing keeps"), (None, True, "cannot be told")]
)
def test_a_clock_nobody_keeps_is_told(kept: bool | None, believed: bool, said: str):
    """Kept by nobody it is to be looked at; where that cannot be asked, it says so and nothing more."""
    state = ClockState(kept, 0.0, 0.0)
    assert state.believable is believed
    assert said in str(state)


def test_the_kernel_is_asked(monkeypatch: pytest.MonkeyPatch):
    """What the kernel says of its clock decides: in step, not in step, or not to be asked."""
    monkeypatch.undo()

    class Kernel:
        def __init__(self, answer: int) -> None:
            self.adjtimex = lambda _: answer

    found = []
    for answer in (0, 5, -1):
        monkeypatch.setattr("server.upkeep.clock_state.ctypes.CDLL", lambda _, answer=answer: Kernel(answer))
        found.append(clock_state.kept_in_step())
    assert found == [True, False, None]
