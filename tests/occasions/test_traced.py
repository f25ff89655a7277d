"""A recording's figures join those of its pass: the energy with the doubt it came with, where none is on file."""

import pytest

from server.facts.equipment import Instrument, Uncertainty
from server.facts.log import LOG_ENTRY
from server.facts.supplies import Trace
from server.occasions.doubts import Doubts
from server.occasions.traced import with_trace
from tests.record.sample_lines import entry_told

ENERGY = {"arc_energy": {"value": "4000", "unit": "J", "how": "counted", "by": "PS-9"}}
BARE = Doubts([Instrument(id="PS-9", title="counter")])


def trace(**further: object) -> Trace:
    told = {"of": "TAB-1:b1:1", "sha256": "ab", "instrument": "PS-9", "values": ENERGY, "energy_doubt_j": "200"}
    entry = LOG_ENTRY.validate_python(entry_told(2, "trace", **(told | further)))
    assert isinstance(entry, Trace)
    return entry


def test_the_energy_brings_its_doubt() -> None:
    """With no doubt of energies on file the recording's own counts, and the figure names the trace entry."""
    found = with_trace({}, trace(), BARE, {})["arc_energy"]
    assert (found.value, found.u, found.by, found.entry) == (4000.0, 200.0, "PS-9", "TAB-1:b1:2")


def test_a_doubt_on_file_goes_first() -> None:
    """An instrument whose doubt of energies is on file is believed in that."""
    share = Uncertainty(quantity="arc_energy", share="0.02", unit="J")  # type: ignore[arg-type]
    doubts = Doubts([Instrument(id="PS-9", title="counter", reads=(share,))])
    assert with_trace({}, trace(), doubts, {})["arc_energy"].u == pytest.approx(80.0)


def test_without_any_doubt_it_stays_unknown() -> None:
    """A recording that could not say how sure it is leaves the energy's doubt unknown, which is never a pass."""
    assert with_trace({}, trace(energy_doubt_j=None), BARE, {})["arc_energy"].u is None


def test_the_figures_of_the_pass_stay() -> None:
    """What the pass has and the recording does not say is still there."""
    own = with_trace({}, trace(), BARE, {})["arc_energy"]._replace(entry="own")
    found = with_trace({"travel": own}, trace(values={}), BARE, {})
    assert found == {"travel": own}
