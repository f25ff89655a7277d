"""What a recording measured: energy with its doubt, words for each doubt, and no figure from what is undecided."""

import math

import pytest

from server.facts.equipment import Instrument, Uncertainty
from server.facts.measured import Measured
from server.physics.trace_found import ArcSpan, TraceFault
from server.work.trace_measured import Measurement, measured_of

READS = (
    Uncertainty(quantity="volts", share="0.03", unit="V"),  # type: ignore[arg-type]
    Uncertainty(quantity="mean_current", fixed="1.2", share="0.02", unit="A"),  # type: ignore[arg-type]
)
COUNTER = Instrument(id="PS-9", title="counter", reads=READS)
BEAD = ArcSpan(0.0, 10.0, 4000.0, 10.0, 0.0, 40.0, 10.0, 420.0, TraceFault.NONE)
PULSE = {"frequency": Measured(value="2", unit="Hz", how="set")}  # type: ignore[arg-type]


def measured(
    bead: ArcSpan = BEAD, hz: float = 1000.0, instrument: Instrument = COUNTER, keep: tuple[str, ...] = ()
) -> Measurement:
    return measured_of(bead, hz, instrument, PULSE, keep)


def test_each_value_says_who_counted_it() -> None:
    """Energy, arc time and the means come with their unit, as counted, by the instrument."""
    found = measured().values
    assert {name: (each["value"], each["unit"]) for name, each in found.items()} == {
        "arc_energy": ("4000.0", "J"),
        "arc_on": ("10.00", "s"),
        "mean_current": ("40.00", "A"),
        "volts": ("10.00", "V"),
    }
    assert {(each["how"], each["by"]) for each in found.values()} == {("counted", "PS-9")}


def test_what_the_pass_tells_is_not_given_again() -> None:
    """Quantities the pass has already are left out, the energy never is."""
    assert set(measured(keep=("arc_on", "volts")).values) == {"arc_energy", "mean_current"}


def test_the_doubt_is_that_of_volts_and_amps() -> None:
    """3 % of the volts and, of 40 A, 1.2 A and 2 % together are 4.7 % of the energy."""
    share = math.hypot(0.03, 1.2 / 40.0, 0.02)
    assert measured().energy_doubt_j == pytest.approx(4000.0 * share)


def test_what_is_missing_widens_the_doubt() -> None:
    """A tenth of a second missing adds the spread of what may have burned in it, and is told with both bounds."""
    bead = ArcSpan(0.0, 10.0, 3960.0, 9.9, 0.1, 40.0, 10.0, 420.0, TraceFault.GAP)
    found = measured(bead)
    plain = 3960.0 * math.hypot(0.03, 1.2 / 40.0, 0.02)
    assert found.energy_doubt_j == pytest.approx(math.hypot(plain, 42.0 / math.sqrt(3.0)))
    assert any("between 3960 and 4002 J" in flag for flag in found.flags)
    assert "gaps in time" in found.flags


def test_an_instrument_with_a_doubt_missing_leaves_it_unknown() -> None:
    """Without the doubt of volts on file nobody can say how sure the energy is; the energy itself stands."""
    found = measured(instrument=Instrument(id="CC-9", title="clamp", reads=READS[1:]))
    assert found.energy_doubt_j is None
    assert "arc_energy" in found.values
    assert any("not on file" in flag for flag in found.flags)


@pytest.mark.parametrize(("hz", "word"), [(1000.0, "instantaneous"), (40.0, "instantaneous"), (39.0, "averaged")])
def test_the_sampling_is_judged_by_the_pulse(hz: float, word: str) -> None:
    """Twenty samples a pulse are enough; fewer are said to be averaged, with what would do."""
    (flag,) = measured(hz=hz).flags
    assert flag.startswith(word)
    assert word == "instantaneous" or "40 Hz would do" in flag


def test_a_pulse_nobody_noted_is_said() -> None:
    """A pass without a pulse frequency leaves open whether the sampling was enough."""
    assert "nobody can tell" in measured_of(BEAD, 50.0, COUNTER, {}).flags[0]


@pytest.mark.parametrize("fault", [TraceFault.CUT, TraceFault.CLOCK_BACK])
def test_undecided_gives_no_figure(fault: TraceFault) -> None:
    """A recording that broke, or whose clock ran back, gives no value and no doubt, and says why."""
    found = measured(ArcSpan(0.0, 10.0, 4000.0, 10.0, 0.0, 40.0, 10.0, 420.0, fault))
    assert (found.values, found.energy_doubt_j) == ({}, None)
    assert any(flag.startswith("undecided") for flag in found.flags)


def test_too_much_missing_gives_no_figure() -> None:
    """More than 2 % of the arc missing is undecided; less is a figure with a wider doubt."""
    much, little = (
        ArcSpan(0.0, 10.0, 3900.0, 10.0 - gap, gap, 40.0, 10.0, 420.0, TraceFault.GAP) for gap in (0.3, 0.1)
    )
    assert measured(much).values == {}
    assert measured(little).values != {}
