"""Arc-on and arc-off with hysteresis."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from server.physics.trace_state import ArcOn, arc_stretches
from tests.physics.trace_by_hand import arc_states

READING = st.one_of(st.floats(0.0, 8.0), st.just(float("nan")))
VOLT = st.one_of(st.floats(0.0, 60.0), st.just(float("nan")))


@given(st.lists(st.tuples(READING, VOLT), min_size=1, max_size=50), st.booleans())
def test_stretches_hold_the_states_of_each_sample(rows, was_on):
    """Stretched out again, the stretches are the states found sample by sample, and neighbours differ."""
    levels = ArcOn()
    before = [(10.0, 10.0)] if was_on else [(0.0, 60.0)]
    rows_before = before + rows
    amps, volts = (np.array([row[at] for row in rows]) for at in (0, 1))
    first, on = arc_stretches(amps, volts, was_on, levels)
    states = np.repeat(on, np.diff(np.append(first, amps.size)))
    assert states.tolist() == arc_states([a for a, _ in rows_before], [v for _, v in rows_before], levels)[1:]
    assert first[0] == 0
    assert (on[1:] != on[:-1]).all()


def test_between_the_levels_nothing_changes():
    """3 A keeps an arc that is on and starts none that is off."""
    steady = np.full(4, 3.0), np.full(4, 10.0)
    assert [arc_stretches(*steady, was_on, ArcOn())[1].tolist() for was_on in (True, False)] == [[True], [False]]
