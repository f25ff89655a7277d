"""Energy of a sampled trace: against a plain sample-by-sample sum, over splits, and with every kind of fault."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics import trace_stretch
from server.physics.errors import UnusableInput
from server.physics.trace_energy import trace_energy
from server.physics.trace_found import TraceFault
from server.physics.trace_state import ArcOn
from tests.physics.trace_by_hand import by_hand

# Every run counts, and no break is passed over, so that sums can be compared sample by sample.
ALL = ArcOn(shortest_arc_s=0.0, shortest_break_s=0.0)
AMPS = st.sampled_from([0.0, 1.0, 3.0, 4.9, 5.0, 60.0, 120.0])
VOLTS = st.sampled_from([2.0, 3.0, 5.0, 10.0, 12.0, 30.0, 40.0, 60.0])
STEP = st.sampled_from([0.001, 0.001, 0.001, 0.002])
BAD_STEP = st.sampled_from([0.001, 0.001, 0.001, 0.0, -0.01, 0.2, 3.0])
BAD = st.sampled_from([60.0, 60.0, 60.0, 0.0, math.nan])


def bead(seconds: float = 15.85, hz: float = 5000.0, amps: float = 60.0, volts: float = 10.0):
    """A steady bead of 60 A and 10 V between two seconds without an arc."""
    time_s = np.arange(0.0, seconds + 4.0, 1.0 / hz)
    on = (time_s > 2.0) & (time_s < 2.0 + seconds)
    return time_s, np.where(on, amps, 0.0), np.where(on, volts, 60.0)


@st.composite
def traces(draw, amps=AMPS, step=STEP):
    rows = draw(st.lists(st.tuples(step, amps, VOLTS), min_size=8, max_size=60))
    return np.cumsum([row[0] for row in rows]), np.array([row[1] for row in rows]), np.array([row[2] for row in rows])


@given(traces(), st.integers(1, 20))
def test_as_summed_by_hand(trace, piece):
    """Energy and arc time are those of a plain sum, wherever the trace falls into pieces inside."""
    time_s, amps, volts = trace
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(trace_stretch, "_PIECE", piece)
        found = trace_energy(time_s, amps, volts, ALL)
    plain = by_hand(time_s, amps, volts, 1.0 / found.sample_hz, ALL)
    assert found.whole.energy_j == pytest.approx(plain.energy_j, abs=1e-9)
    assert found.whole.arc_s == pytest.approx(plain.arc_s, abs=1e-12)
    assert found.whole.missing_s == 0.0


@given(traces(amps=BAD, step=BAD_STEP), st.integers(1, 20))
def test_faults_as_summed_by_hand(trace, piece):
    """With numbers missing, gaps and a clock that stops or runs back, all three sums are still the same."""
    time_s, amps, volts = trace
    if not (np.diff(time_s) > 0.0).any() or np.isnan(amps).all():
        return
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(trace_stretch, "_PIECE", piece)
        found = trace_energy(time_s, amps, volts, ALL)
    plain = by_hand(time_s, amps, volts, 1.0 / found.sample_hz, ALL)
    assert found.whole.energy_j == pytest.approx(plain.energy_j, abs=1e-9)
    assert found.whole.arc_s == pytest.approx(plain.arc_s, abs=1e-12)
    assert found.whole.missing_s == pytest.approx(plain.missing_s, abs=1e-9)


@given(traces(amps=st.sampled_from([0.0, 60.0, 120.0])), st.data())
def test_energy_adds_up_over_splits(trace, data):
    """Cut at any sample, the two parts hold the energy and the arc time of the whole."""
    cut = data.draw(st.integers(1, trace[0].size - 2))
    time_s, amps, volts = trace
    whole = trace_energy(time_s, amps, volts, ALL).whole
    ways = (slice(cut + 1), slice(cut, None))
    parts = [trace_energy(time_s[way], amps[way], volts[way], ALL).whole for way in ways]
    # A sample that says neither on nor off at the cut would be read anew; 40 V alone does.
    if trace[2][cut] != 40.0 and trace[2][cut] != 3.0:
        assert sum(part.energy_j for part in parts) == pytest.approx(whole.energy_j, abs=1e-9)
        assert sum(part.arc_s for part in parts) == pytest.approx(whole.arc_s, abs=1e-12)


def test_a_steady_bead():
    """A bead of 60 A and 10 V is 600 J a second, with its means, its peak and nothing missing."""
    found = trace_energy(*bead())
    assert found.whole.energy_j == pytest.approx(600.0 * 15.85, rel=1e-4)
    assert [found.whole.mean_amps, found.whole.mean_volts] == pytest.approx([60.0, 10.0])
    assert found.whole.mean_power_w == pytest.approx(600.0)
    assert (found.whole.peak_w, found.whole.missing_s, found.whole.faults) == (600.0, 0.0, TraceFault.NONE)
    assert not found.whole.undecided
    assert found.sample_hz == pytest.approx(5000.0)


def test_a_pulse_is_not_the_product_of_its_means():
    """A 120/30 A pulse at 40 % on a line of 10 V + 0.04 V/A gives 912 W, where means would give 834 W."""
    time_s = np.arange(0.0, 10.0, 1e-3)
    amps = np.where(time_s % 0.5 < 0.2 - 1e-9, 120.0, 30.0)
    whole = trace_energy(time_s, amps, 10.0 + 0.04 * amps).whole
    assert whole.mean_power_w == pytest.approx(912.0, rel=1e-3)
    assert whole.mean_amps * whole.mean_volts == pytest.approx(834.24, rel=1e-3)


def test_half_a_second_of_nothing_is_missing_not_bridged():
    """500 ms that are not a number are left out of the energy, counted, flagged and bounded; the bead is undecided."""
    time_s, amps, volts = bead()
    amps[(time_s > 5.0) & (time_s < 5.5)] = np.nan
    found = trace_energy(time_s, amps, volts)
    assert found.whole.energy_j == pytest.approx(600.0 * 15.35, rel=1e-4)
    assert found.whole.missing_s == pytest.approx(0.5, abs=1e-3)
    assert found.whole.energy_j < 600.0 * 15.85 <= found.whole.energy_high_j + 0.2
    assert found.whole.faults == TraceFault.NOT_A_NUMBER
    assert found.counts[TraceFault.NOT_A_NUMBER] == 2500 - 1
    assert found.whole.undecided
    assert len(found.beads) == 1


def test_twenty_milliseconds_of_nothing_decide_nothing():
    """20 ms missing of 16 s are flagged and bounded, but leave the energy fit to be judged."""
    time_s, amps, volts = bead()
    volts[(time_s > 5.0) & (time_s < 5.02)] = np.nan
    whole = trace_energy(time_s, amps, volts).whole
    assert whole.faults == TraceFault.NOT_A_NUMBER
    assert whole.missing_s == pytest.approx(0.02, abs=1e-3)
    assert not whole.undecided


def test_a_gap_inside_a_bead():
    """300 ms without samples stay one bead, with the time missing."""
    time_s, amps, volts = bead()
    kept = (time_s < 6.0) | (time_s > 6.3)
    found = trace_energy(time_s[kept], amps[kept], volts[kept])
    assert len(found.beads) == 1
    assert found.whole.missing_s == pytest.approx(0.3, abs=1e-3)
    assert (found.whole.faults, found.counts[TraceFault.GAP]) == (TraceFault.GAP, 1)


def test_a_long_gap_ends_the_bead():
    """1.8 s without samples part the bead in two, both undecided, and bound what the first may have taken."""
    time_s, amps, volts = bead()
    kept = (time_s < 6.0) | (time_s > 7.8)
    found = trace_energy(time_s[kept], amps[kept], volts[kept])
    assert [one.undecided for one in found.beads] == [True, True]
    assert found.whole.energy_j < 600.0 * 15.85 <= found.whole.energy_high_j + 0.2
    assert TraceFault.CUT in found.beads[1].faults


def test_a_clock_that_runs_back():
    """A clock set back three seconds parts the bead, loses no sample, and leaves both parts undecided."""
    time_s, amps, volts = bead()
    time_s[30_000:] -= 3.0
    found = trace_energy(time_s, amps, volts)
    assert found.whole.energy_j == pytest.approx(600.0 * 15.85, rel=2e-4)
    assert found.counts[TraceFault.CLOCK_BACK] == 1
    assert [one.undecided for one in found.beads] == [True, True]


def test_every_sample_twice():
    """A trace with each sample written twice keeps its energy and says so."""
    time_s, amps, volts = (np.repeat(column, 2) for column in bead())
    whole = trace_energy(time_s, amps, volts).whole
    assert whole.energy_j == pytest.approx(600.0 * 15.85, rel=1e-4)
    assert whole.faults == TraceFault.DUPLICATE


def test_two_beads_and_a_strike():
    """Two beads are found apart, a strike of 10 ms is none, and a flicker of 10 ms parts none."""
    time_s = np.arange(0.0, 12.0, 1e-3)
    on = ((time_s > 1.0) & (time_s < 4.0)) | ((time_s > 6.0) & (time_s < 9.0))
    on |= (time_s > 10.0) & (time_s < 10.01)
    on &= ~((time_s > 2.0) & (time_s < 2.01))
    found = trace_energy(time_s, np.where(on, 50.0, 0.0), np.where(on, 10.0, 60.0))
    assert [round(one.start_s) for one in found.beads] == [1, 6]
    assert [one.energy_j for one in found.beads] == pytest.approx([1495.0, 1500.0], rel=2e-3)
    assert found.whole.energy_j == pytest.approx(sum(one.energy_j for one in found.beads))


def test_one_reading_without_an_arc_parts_two_beads():
    """At ten readings a second a single one without an arc is a break of 0.2 s, and parts two beads."""
    amps = np.where(np.arange(100) == 50, 0.0, 50.0)
    assert len(trace_energy(np.arange(100) / 10.0, amps, np.full(100, 10.0)).beads) == 2


def test_one_reading_each_second():
    """A logger of one reading a second is summed over its seconds and flags nothing."""
    found = trace_energy(np.arange(40.0), np.full(40, 50.0), np.full(40, 10.0))
    assert found.whole.energy_j == pytest.approx(39 * 500.0)
    assert found.whole.faults == TraceFault.NONE
    assert set(found.counts.values()) == {0}


def test_four_byte_numbers():
    """Columns of four-byte numbers give the same energy to a part in a million."""
    time_s, amps, volts = bead()
    narrow = trace_energy(time_s, amps.astype(np.float32), volts.astype(np.float32))
    assert narrow.whole.energy_j == pytest.approx(trace_energy(time_s, amps, volts).whole.energy_j, rel=1e-6)


def test_no_arc_at_all():
    """A trace that never shows an arc has no bead and no energy, says so, and can pass no limit."""
    found = trace_energy(np.arange(10.0), np.zeros(10), np.full(10, 60.0))
    assert (found.beads, found.whole.energy_j, found.whole.mean_power_w) == ((), 0.0, 0.0)
    assert found.whole.faults == TraceFault.NO_ARC
    assert found.whole.undecided


def test_an_infinite_reading_is_left_out():
    """A reading of infinity counts as not a number and never reaches the energy."""
    time_s, amps, volts = bead()
    amps[30_000] = np.inf
    volts[30_001] = 0.0
    found = trace_energy(time_s, amps, volts)
    assert found.counts[TraceFault.NOT_A_NUMBER] == 1
    assert math.isfinite(found.whole.energy_high_j)


@pytest.mark.parametrize(
    ("columns", "said"),
    [
        (([], [], []), "trace is '0 samples'"),
        (([0.0], [50.0], [10.0]), "trace is '1 samples'"),
        (([0.0, 1.0], [50.0], [10.0, 10.0]), "three columns of one length"),
        (([0.0, 1.0, 2.0], [np.nan] * 3, [10.0] * 3), "all not-a-number"),
        (([np.nan] * 3, [50.0] * 3, [10.0] * 3), "time_s is 'no step forward'"),
        (([5.0, 5.0, 5.0], [50.0] * 3, [10.0] * 3), "time_s is 'no step forward'"),
    ],
)
def test_unusable_traces_are_named(columns, said):
    """A trace that is empty, of uneven columns, all not-a-number or without time gets an error that says which."""
    with pytest.raises(UnusableInput, match=said.replace("[", r"\[")):
        trace_energy(*columns)
