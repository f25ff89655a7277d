"""Which columns of a recording hold time, amps and volts, guessed from the words a logger put over them."""

from __future__ import annotations

import csv
import re
from typing import NamedTuple

from server.physics.errors import UnusableInput
from server.physics.trace_file import TraceHeaders

_LINES_SEARCHED = 100
_PARTED_BY = (";", "\t", ",")
_WORDS = {
    "time": re.compile(r"(elapsed|time|t|seconds|sec|s|millis|ms|zeit|temps)\b", re.IGNORECASE),
    "amps": re.compile(r"(arc )?(amps?|ampere|current|i|m?a|strom|courant)\b", re.IGNORECASE),
    "volts": re.compile(r"(arc )?(volts?|voltage|u|m?v|spannung|tension)\b", re.IGNORECASE),
}
_UNIT = re.compile(r"[\[(/_ ]\s*(ms|us|µs|s|sec|min|ma|a|ka|mv|v|kv)\s*[\])]?\s*$", re.IGNORECASE)
_UNITS = {
    "time": {"ms": "ms", "us": "us", "µs": "us", "s": "s", "sec": "s", "min": "min"},
    "amps": {"ma": "mA", "a": "A", "ka": "kA"},
    "volts": {"mv": "mV", "v": "V", "kv": "kV"},
}


class _Column(NamedTuple):
    header: str
    unit: str


def guess_headers(content: bytes) -> TraceHeaders:
    """Name the columns of a text recording by their headers, with the units written in them.

    Equation: the first line with a header for each of time, amps and volts
    Inputs: content, the bytes of the file.
    Result: TraceHeaders for read_text_trace; a header without a unit is taken in s, A and V.
    Example:
        >>> guess_headers(b"my logger, 20 Hz\\nt / ms;current (A);voltage [V]\\n0;50;10\\n").time_unit
        'ms'

    Range and traps: A guess, to be shown and confirmed. It looks at words alone: a column of set amps beside one of
        measured amps is taken if it stands first. A unit that is not written down cannot be known.
    Source: our own reading of what loggers export.
    """
    lines = _text(content).splitlines()
    for line in lines[:_LINES_SEARCHED]:
        for parted_by in _PARTED_BY:
            found = _columns(line, parted_by)
            if len(found) == len(_WORDS):
                time, amps, volts = (found[name] for name in _WORDS)
                return TraceHeaders(time.header, amps.header, volts.header, time.unit, amps.unit, volts.unit)
    seen = next((line for line in lines if line.strip()), "nothing")[:120]
    expected = "a line with a header each for time, amps and volts, such as time_s;amps;volts"
    raise UnusableInput("headers", seen, expected, "Say which of the file's own headers stand over time, amps, volts.")


def _columns(line: str, parted_by: str) -> dict[str, _Column]:
    found: dict[str, _Column] = {}
    for field in next(csv.reader([line], delimiter=parted_by), []):
        header = field.strip()
        named = next((name for name, word in _WORDS.items() if word.match(header.replace("_", " "))), None)
        if named is not None and named not in found:
            found[named] = _Column(header, _unit(named, header))
    return found


def _unit(name: str, header: str) -> str:
    units = _UNITS[name]
    written = _UNIT.search(header)
    usual = next(unit for key, unit in units.items() if key in {"s", "a", "v"})
    alone = units.get(header.lower(), usual)
    return units.get(written.group(1).lower(), alone) if written else alone


def _text(content: bytes) -> str:
    return content[:100_000].decode("utf-8-sig", errors="replace")
