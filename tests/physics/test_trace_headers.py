"""Headers guessed from a logger's words: with units, under a preamble, in any order; or refused."""

import pytest

from server.physics.errors import UnusableInput
from server.physics.trace_file import TraceHeaders, read_text_trace
from server.physics.trace_headers import guess_headers


@pytest.mark.parametrize(
    ("line", "names", "units"),
    [
        ("time_s;amps;volts", ("time_s", "amps", "volts"), ("s", "A", "V")),
        ("U [V],I [A],t [ms]", ("t [ms]", "I [A]", "U [V]"), ("ms", "A", "V")),
        ("Elapsed time (s)\tArc current (A)\tArc voltage (V)", None, ("s", "A", "V")),
        ("TIME_MS,AMPS,VOLTS", ("TIME_MS", "AMPS", "VOLTS"), ("ms", "A", "V")),
        ("sample;ms;mA;mV", ("ms", "mA", "mV"), ("ms", "mA", "mV")),
        ("Zeit / s;Strom / A;Spannung / V", None, ("s", "A", "V")),
        ("time;temperature;current;voltage", ("time", "current", "voltage"), ("s", "A", "V")),
        ("time;amps;amps set;volts;volts set", ("time", "amps", "volts"), ("s", "A", "V")),
    ],
)
def test_the_words_say_which_column_is_which(line: str, names: tuple[str, ...] | None, units: tuple[str, ...]) -> None:
    """Time, amps and volts are found by their words in any order, and the unit written with them is taken."""
    found = guess_headers(f"some logger, 20 Hz\n\n{line}\n1;2;3\n".encode())
    assert (found.time_unit, found.amps_unit, found.volts_unit) == units
    assert names is None or (found.time, found.amps, found.volts) == names


def test_what_was_guessed_is_read() -> None:
    """The columns guessed give the numbers in seconds, amps and volts, whatever the file's units."""
    content = b"box 7\nvolts [mV];ms;A\n10000;0;50\n10200;20;51\n"
    columns = read_text_trace(content, guess_headers(content))
    assert [list(column) for column in columns] == [[0.0, 0.02], [50.0, 51.0], [10.0, pytest.approx(10.2)]]


def test_a_unit_that_does_not_belong_is_not_taken() -> None:
    """A header that ends in another quantity's unit keeps its own usual unit."""
    assert guess_headers(b"time_a;amps_s;volts\n") == TraceHeaders("time_a", "amps_s", "volts")


@pytest.mark.parametrize("content", [b"", b"x;y;z\n1;2;3\n", b"time;amps\n1;2\n", b"\x00\xff\xfe"])
def test_headers_that_say_nothing_are_refused_with_what_was_seen(content: bytes) -> None:
    """A file without the three headers is refused, showing its first line and what to say instead."""
    with pytest.raises(UnusableInput, match="over time, amps, volts") as refused:
        guess_headers(content)
    assert refused.value.field == "headers"
    assert not content or refused.value.value
