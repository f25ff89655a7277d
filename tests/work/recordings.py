"""Recordings of an arc made for proofs: beads of 40 A at 10 V, as text and in the binary form."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from server.physics.trace_file import write_binary_trace
from server.record.book_of_lines import Record
from tests.record.fixtures import append
from tests.record.sample_lines import entry_told, new_entry, new_register, person

INSTRUMENT = "PS-9"
BEADS = ((2.0, 12.0), (20.0, 25.0), (30.0, 34.0))
ENERGIES_J = (4000.0, 2000.0, 1600.0)


def _columns(beads: Sequence[tuple[float, float]], hz: float) -> tuple[Any, Any, Any]:
    time_s = np.arange(0.0, 40.0, 1.0 / hz)
    on = np.any([(time_s >= start) & (time_s < end) for start, end in beads], axis=0)
    return time_s, np.where(on, 40.0, 0.0), np.where(on, 10.0, 60.0)


def text(beads: Sequence[tuple[float, float]] = BEADS, hz: float = 100.0, header: str = "t [ms];I [A];U [V]") -> bytes:
    """A recording as a text table in milliseconds."""
    rows = (f"{1000.0 * t:.0f};{amps:.1f};{volts:.1f}" for t, amps, volts in zip(*_columns(beads, hz), strict=True))
    return "\n".join(("box 7", header, *rows)).encode()


def binary(beads: Sequence[tuple[float, float]] = BEADS, hz: float = 100.0) -> bytes:
    """The same in the binary form."""
    _, amps, volts = _columns(beads, hz)
    return write_binary_trace(0.0, 1.0 / hz, amps, volts)


def broken(beads: Sequence[tuple[float, float]] = BEADS) -> bytes:
    """The same, with half of the first bead not written down: undecided."""
    time_s, amps, volts = _columns(beads, 100.0)
    amps[(time_s >= 5.0) & (time_s < 10.0)] = np.nan
    return write_binary_trace(0.0, 0.01, amps, volts)


def shop_with_a_pass(record: Record, **further: Any) -> str:
    """Put a welder, an instrument whose doubts are on file and one pass into a record; give the pass's id."""
    doubts = (("volts", "0.03", "V"), ("mean_current", "0.04", "A"))
    reads = [{"quantity": quantity, "share": share, "unit": unit} for quantity, share, unit in doubts]
    instrument = {"kind": "instrument", "id": INSTRUMENT, "title": "power source counter", "reads": reads}
    bare = {"kind": "instrument", "id": "CC-9", "title": "clamp meter", "reads": reads[1:]}
    append(record, new_register(person()), new_register(instrument), new_register(bare))
    told = {"values": {}, "sleeve": "S-1", "purge_line": "T-2", "machine": INSTRUMENT} | further
    append(record, new_entry(1, **told))
    return str(entry_told(1)["id"])


def kept(folder: Path) -> list[bytes]:
    """The files kept beside a record."""
    return [path.read_bytes() for path in (folder / "record" / "files").rglob("*") if path.is_file()]
