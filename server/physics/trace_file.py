"""Recordings of an arc read into columns: text tables under any headers, and a plain binary form."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.errors import UnusableInput
from server.physics.inputs import finite, positive
from server.physics.trace_piece import Columns
from server.physics.trace_table import find_header, read_rows
from server.physics.units import convert_unit

if TYPE_CHECKING:
    from server.physics.arrays import Given

_HEAD = struct.Struct("<4sIdd")
_MARK = b"ARC1"


@dataclass(frozen=True, slots=True)
class TraceHeaders:
    """The headers over time, amps and volts in a text table, their units, and whether the clamp sat the wrong way."""

    time: str = "time_s"
    amps: str = "amps"
    volts: str = "volts"
    time_unit: str = "s"
    amps_unit: str = "A"
    volts_unit: str = "V"
    clamp_reversed: bool = False


def read_text_trace(content: bytes, headers: TraceHeaders) -> Columns:
    """Columns of a recording exported as text, one row per sample under a line of headers.

    Equation: each column times the factor of its unit
    Inputs: content, the bytes of the file, UTF-8 or Latin-1, parted by semicolons, tabs or commas; with the first two a
        decimal comma is read too. headers: what the columns are called and their units.
    Result: Columns [s, A, V] for trace_energy; an empty field or `nan` becomes not-a-number.
    Example:
        >>> text = b"my logger, 20 Hz\\nt / ms;current;voltage\\n0;50,0;10,1\\n50;;10,2\\n"
        >>> read_text_trace(text, TraceHeaders("t / ms", "current", "voltage", time_unit="ms")).time_s.tolist()
        [0.0, 0.05]

    Range and traps: Lines above the headers are passed over. Volts at the machine are higher than at the arc. About a
        second for a million rows: a fast logger's binary form saves it.
    Source: RFC 4180 for comma-separated text; the rest is our own reading of what loggers export.
    """
    import numpy as np

    table = find_header(_text(content), (headers.time, headers.amps, headers.volts))
    rows = read_rows(table)
    units = ((headers.time_unit, "s"), (headers.amps_unit, "A"), (headers.volts_unit, "V"))
    factors = np.array([convert_unit(1.0, given, wanted, f"unit of {wanted}") for given, wanted in units])
    factors[1] *= -1.0 if headers.clamp_reversed else 1.0
    return Columns(*(rows * factors).T.copy())


def read_binary_trace(content: bytes) -> Columns:
    """Columns of a recording in the plain binary form: a head, then all amps, then all volts.

    Equation: tk = first + k · step
    Inputs: content: little-endian `ARC1`, count as 4-byte unsigned, first and step in seconds as 8-byte floats; then
        count amps and count volts as 4-byte floats.
    Result: Columns [s, A, V] for trace_energy.
    Example:
        >>> read_binary_trace(write_binary_trace(0.0, 0.5, [50.0, 51.0], [10.0, 10.0])).time_s.tolist()
        [0.0, 0.5]

    Range and traps: An even clock is taken for granted, so pauses of the logger must be written as not-a-number.
    Source: our own form, of standard 4-byte and 8-byte floats (IEEE 754).
    """
    import numpy as np

    if len(content) < _HEAD.size or content[:4] != _MARK:
        raise UnusableInput(
            "trace", content[:4], "a recording that begins with ARC1", "Attach it as a text table instead."
        )
    _, count, first_s, step_s = _HEAD.unpack_from(content)
    whole = _HEAD.size + 8 * count
    if len(content) != whole or count < 2:
        remedy = "The file is cut short or holds something else: export it again."
        raise UnusableInput("trace", f"{len(content)} bytes", f"{whole} bytes for the {count} samples it names", remedy)
    readings = np.frombuffer(content, "<f4", offset=_HEAD.size).astype(np.float32)
    clock_s = finite("first_s", first_s) + positive("step_s", step_s) * np.arange(count)
    return Columns(clock_s, readings[:count], readings[count:])


def write_binary_trace(first_s: float, step_s: float, amps: Given, volts: Given) -> bytes:
    """A recording in the plain binary form that read_binary_trace reads.

    Equation: tk = first + k · step
    Inputs: first_s and step_s [s], amps [A], volts [V], of one length.
    Result: bytes: 24 for the head and 8 for each sample.
    Example:
        >>> len(write_binary_trace(0.0, 0.5, [50.0, 51.0], [10.0, 10.0]))
        40

    Range and traps: Readings keep seven digits.
    Source: as read_binary_trace.
    """
    import numpy as np

    columns = [np.asarray(column, "<f4") for column in (amps, volts)]
    if columns[0].shape != columns[1].shape or columns[0].ndim != 1:
        shapes = [column.shape for column in columns]
        raise UnusableInput("trace", shapes, "amps and volts of one length", "Export the columns together.")
    head = _HEAD.pack(_MARK, columns[0].size, finite("first_s", first_s), positive("step_s", step_s))
    return head + columns[0].tobytes() + columns[1].tobytes()


def _text(content: bytes) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("latin-1")
