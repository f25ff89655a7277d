"""Beads taken together: energy and time add, means are by arc time, and a fault of one is a fault of all."""

import numpy as np
import pytest

from server.physics.errors import UnusableInput
from server.physics.trace_energy import trace_energy
from server.physics.trace_found import ArcSpan, TraceFault
from server.physics.trace_joined import joined_beads


def test_all_beads_together_are_the_whole() -> None:
    """The beads of a trace joined again are its whole: energy, arc time, means, faults, both ends."""
    time_s = np.arange(0.0, 30.0, 0.01)
    amps = np.where((time_s % 10.0) < 6.0, 40.0 + time_s, 0.0)
    amps[250:260] = np.nan
    found = trace_energy(time_s, amps, np.full(time_s.size, 10.0))
    assert len(found.beads) == 3
    joined = joined_beads(found.beads)
    for name in ("energy_j", "arc_s", "missing_s", "mean_amps", "mean_volts", "peak_w", "start_s", "end_s"):
        assert getattr(joined, name) == pytest.approx(getattr(found.whole, name)), name
    assert joined.faults == found.whole.faults == TraceFault.NOT_A_NUMBER


def test_one_bead_is_itself() -> None:
    """A single bead joined is the bead."""
    bead = ArcSpan(1.0, 3.0, 900.0, 2.0, 0.0, 45.0, 10.0, 470.0, TraceFault.CUT)
    assert joined_beads([bead]) == bead


def test_no_bead_is_refused() -> None:
    """Nothing chosen is refused by name."""
    with pytest.raises(UnusableInput, match="beads"):
        joined_beads([])
