"""What the trace screens are asked is carried from page to page unchanged, and what is no bead is refused by name."""

import pytest

from server.facts.entry import QUARTERS
from server.pages.traces.asked import beads_to_log, look_asked
from server.work.log_beads import BeadAsked
from server.work.refusal import Unreadable
from server.work.trace_read import GUESSED, ReadAs

NAMED = (("of", "TAB:1"), ("instrument", "PS-9"), ("time", " ms "), ("amps", "I"), ("volts", "U"), ("time_unit", "ms"))


def test_what_is_carried_asks_the_same_again() -> None:
    """The fields carried to the next page are read there as the same pass, instrument and way of reading."""
    asked = look_asked([*NAMED, ("clamp_reversed", "yes"), ("bead", "2"), ("bead", "3")])
    assert asked.read_as == ReadAs("ms", "I", "U", time_unit="ms", clamp_reversed=True)
    assert asked.beads == (2, 3)
    again = look_asked(asked.carried)
    assert (again.of, again.instrument, again.read_as) == (asked.of, asked.instrument, asked.read_as)


def test_nothing_named_is_guessed() -> None:
    """Empty fields leave the headers to be guessed and the clamp as it sat."""
    assert look_asked([("of", "x"), ("time", ""), ("clamp_reversed", "")]).read_as == GUESSED


@pytest.mark.parametrize("value", ["", "two", "-1", "٢", "1e3", "999999999"])
def test_what_is_no_bead_is_refused(value: str) -> None:
    """A bead that is no number is refused by name."""
    with pytest.raises(Unreadable, match="bead"):
        look_asked([("bead", value)])


def test_a_bead_is_logged_as_it_was_chosen() -> None:
    """The run and the quarters of each ticked bead are its own; beads not ticked are left alone."""
    chosen = [("run_2", "fill"), ("quarters_2", "q3"), ("run_3", "root"), ("quarters_3", "all")]
    told = [("log", "2"), *chosen, ("log", "3")]
    assert beads_to_log(told) == [BeadAsked(2, "fill", ("q3",)), BeadAsked(3, "root", QUARTERS)]
    assert beads_to_log(chosen) == []


@pytest.mark.parametrize(
    ("run", "quarters", "said"), [("weld", "all", "run of bead 2"), ("root", "half", "quarters of bead 2")]
)
def test_an_impossible_choice_is_refused(run: str, quarters: str, said: str) -> None:
    """A run or a quarter that is none is refused, naming the bead."""
    with pytest.raises(Unreadable, match=said):
        beads_to_log([("log", "2"), ("run_2", run), ("quarters_2", quarters)])
