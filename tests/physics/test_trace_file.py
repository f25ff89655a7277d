"""Recordings read from text tables and from the plain binary form."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.trace_energy import trace_energy
from server.physics.trace_file import TraceHeaders, read_binary_trace, read_text_trace, write_binary_trace

ROWS = ["0.0,50.0,10.0", "0.001,51.5,10.2", "0.002,49,9.9"]
READINGS = st.lists(st.floats(0.0, 300.0, width=32), min_size=2, max_size=50)


def table(rows: list[str], head: str = "time_s,amps,volts") -> bytes:
    return "\n".join([head, *rows]).encode()


def test_a_plain_table():
    """Columns come out in seconds, amps and volts, in the order asked for whatever their order in the file."""
    trace = read_text_trace(table(["10,0.0,x,50", "11,0.5,y,51"], "volts,time_s,note,amps"), TraceHeaders())
    assert [column.tolist() for column in trace] == [[0.0, 0.5], [50.0, 51.0], [10.0, 11.0]]


def test_units_and_a_reversed_clamp():
    """Milliseconds, kiloamps and millivolts are carried over, and a clamp put on the wrong way is turned round."""
    headers = TraceHeaders("t", "i", "u", time_unit="ms", amps_unit="kA", volts_unit="mV", clamp_reversed=True)
    trace = read_text_trace(b"t,i,u\n500,-0.05,10000\n501,-0.06,11000\n", headers)
    assert trace.time_s.tolist() == [0.5, 0.501]
    assert trace.amps.tolist() == [50.0, 60.0]
    assert trace.volts.tolist() == [10.0, 11.0]


@pytest.mark.parametrize("parted_by", [";", "\t"])
def test_decimal_commas(parted_by):
    """With semicolons or tabs between fields a decimal comma is a decimal comma."""
    rows = [row.replace(",", parted_by).replace(".", ",") for row in ROWS]
    trace = read_text_trace(table(rows, parted_by.join(("time_s", "amps", "volts"))), TraceHeaders())
    assert trace.amps.tolist() == [50.0, 51.5, 49.0]


def test_a_preamble_quotes_and_a_degree_sign():
    """Lines above the headers are passed over, quoted fields are read, and Latin-1 text is no obstacle."""
    content = 'Logger 7\nRoom: 21 °C\n\n"time_s","amps","volts"\n"0","50","10"\n"1","50","10"\n\n'.encode("latin-1")
    assert read_text_trace(content, TraceHeaders()).time_s.tolist() == [0.0, 1.0]


def test_empty_fields_are_not_a_number():
    """An empty field, a dash and the word nan become not-a-number, which the energy then counts."""
    trace = read_text_trace(table([*ROWS, "0.003,,10", "0.004,nan,10", "0.005,-,10", "0.006,50"]), TraceHeaders())
    assert [math.isnan(amps) for amps in trace.amps] == [False] * 3 + [True] * 3 + [False]
    assert math.isnan(trace.volts[-1])


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "headers such as those in 'nothing'"),
        (b"a,b,c\n1,2,3\n", "headers such as those in 'a,b,c'"),
        (b"\x00" * 50, "headers such as those in"),
        (b"x" * 200_000, "headers such as those in"),
        (b"time_s,amps,volts\n\n", "trace is 'no rows'"),
        (table([*ROWS, "0.003,fifty,10"]), "row 4 below the headers in line 1 is 'fifty'; expected a number"),
    ],
)
def test_unusable_tables_are_named(content, said):
    """A table without its headers, without rows or with a word in place of a number gets an error that names it."""
    with pytest.raises(UnusableInput, match=said):
        read_text_trace(content, TraceHeaders())


def test_a_unit_of_another_kind_is_refused():
    """Amps in volts are refused by name."""
    with pytest.raises(UnusableInput, match="unit of A is '1 V'"):
        read_text_trace(table(ROWS), TraceHeaders(amps_unit="V"))


@given(READINGS, st.floats(-1e3, 1e3), st.floats(1e-6, 1.0))
def test_binary_comes_back_as_it_went(readings, first_s, step_s):
    """What is written in the binary form is read back, on an even clock."""
    trace = read_binary_trace(write_binary_trace(first_s, step_s, readings, readings[::-1]))
    assert trace.amps.tolist() == readings
    assert trace.volts.tolist() == readings[::-1]
    assert np.allclose(np.diff(trace.time_s), step_s, atol=1e-9)
    assert trace.time_s[0] == first_s


def test_text_and_binary_hold_one_energy():
    """The same recording gives the same energy from either form."""
    time_s = np.arange(2000) / 1000.0
    amps, volts = 50.0 + 10.0 * np.sin(time_s), np.full(2000, 10.5)
    rows = [f"{t!r},{a!r},{v!r}" for t, a, v in zip(time_s.tolist(), amps.tolist(), volts.tolist(), strict=True)]
    of_text = trace_energy(*read_text_trace(table(rows), TraceHeaders())).whole.energy_j
    of_binary = trace_energy(*read_binary_trace(write_binary_trace(0.0, 0.001, amps, volts))).whole.energy_j
    assert of_text == pytest.approx(trace_energy(time_s, amps, volts).whole.energy_j, rel=1e-12)
    assert of_binary == pytest.approx(of_text, rel=1e-6)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "begins with ARC1"),
        (b"ARC", "begins with ARC1"),
        (b"PNG1" + bytes(40), "begins with ARC1"),
        (write_binary_trace(0.0, 1.0, [1.0, 2.0], [1.0, 2.0])[:-1], "39 bytes'; expected 40 bytes for the 2 samples"),
        (write_binary_trace(0.0, 1.0, [1.0], [1.0]), "32 bytes'; expected 32 bytes for the 1 samples"),
        (b"ARC1\x02\0\0\0" + bytes(32), "step_s is 0.0"),
    ],
)
def test_unusable_binaries_are_named(content, said):
    """A file of another kind, cut short, of one sample or without a step gets an error that names it."""
    with pytest.raises(UnusableInput, match=said):
        read_binary_trace(content)


def test_uneven_columns_are_not_written():
    """Amps and volts of different lengths are refused before anything is written."""
    with pytest.raises(UnusableInput, match="amps and volts of one length"):
        write_binary_trace(0.0, 1.0, [1.0, 2.0], [1.0])
