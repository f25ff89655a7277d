"""A recording is read whatever its form, and what cannot be read is told in shop words."""

import pytest

from server.work.refusal import Unreadable
from server.work.trace_read import ReadAs, read_trace
from tests.work import recordings


@pytest.mark.parametrize("content", [recordings.text(), recordings.binary()])
def test_text_and_binary_hold_the_same_beads(content: bytes) -> None:
    """Both forms of one recording give its three beads with their energies."""
    seen = read_trace(content)
    assert [bead.energy_j for bead in seen.found.beads] == pytest.approx(recordings.ENERGIES_J, rel=0.01)
    assert (seen.headers is None) == content.startswith(b"ARC1")


def test_headers_named_go_before_those_guessed() -> None:
    """Two columns of amps: the one named is read, in the unit named."""
    content = recordings.text(header="ms;set;V2") + b"\n"
    named = ReadAs("ms", "set", "V2", time_unit="ms")
    assert read_trace(content, named).beads(()).energy_j == pytest.approx(sum(recordings.ENERGIES_J), rel=0.01)
    with pytest.raises(Unreadable, match="over time, amps, volts"):
        read_trace(content)


def test_a_clamp_the_wrong_way_round_can_be_turned() -> None:
    """Amps below zero are no arc and the refusal says what to do; told so, the same file is read."""
    content = recordings.text().replace(b";40.0;", b";-40.0;")
    with pytest.raises(Unreadable, match="wrong way round"):
        read_trace(content)
    assert len(read_trace(content, ReadAs(clamp_reversed=True)).found.beads) == 3


def test_beads_are_taken_by_their_numbers() -> None:
    """Some beads, all when none are named, and none that are not there."""
    seen = read_trace(recordings.binary())
    assert seen.beads((2, 3)).energy_j == pytest.approx(3600.0, rel=0.01)
    assert seen.beads(()) == seen.beads((1, 2, 3))
    with pytest.raises(Unreadable, match="beads 1 to 3"):
        seen.beads((4,))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "headers"),
        (b"\x89PNG\r\n\x1a\n" + bytes(200), "headers"),
        (b"ARC1" + bytes(10), "ARC1"),
        (b"time;amps;volts\n", "rows of numbers"),
        (b"time;amps;volts\n0;fifty;10\n1;50;10\n", "row 1 below the headers"),
        (b"time;amps;volts\n0;;\n1;;\n", "trace"),
        (b"time;amps;volts\n5;50;10\n4;50;10\n", "times in seconds that rise"),
        (b"time;amps;volts\n0;1;10\n1;1;10\n2;1;10\n", "no arc in it; amps run from 0 to 1"),
    ],
)
def test_a_bad_file_is_refused_by_what_is_wrong_with_it(content: bytes, said: str) -> None:
    """Nothing, a picture, a cut file, words for numbers, a clock that runs back, no arc: each is named."""
    with pytest.raises(Unreadable, match=said):
        read_trace(content)


def test_some_headers_are_not_enough() -> None:
    """Two headers of three named are refused, as the third would be guessed beside them."""
    with pytest.raises(Unreadable, match="over all three"):
        read_trace(recordings.text(), ReadAs(time="t [ms]", amps="I [A]"))
