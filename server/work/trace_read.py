"""Reads a recording sent to the house: text under any headers or the binary form, with the beads found in it."""

from dataclasses import dataclass

from server.physics.errors import UnusableInput
from server.physics.trace_energy import trace_energy
from server.physics.trace_file import TraceHeaders, read_binary_trace, read_text_trace
from server.physics.trace_found import ArcSpan, TraceFound
from server.physics.trace_headers import guess_headers
from server.physics.trace_joined import joined_beads
from server.physics.trace_piece import Columns
from server.work.refusal import Unreadable

_BINARY = b"ARC1"
_REVERSED_BELOW_A = -5.0


@dataclass(frozen=True, slots=True)
class ReadAs:
    """How a recording is to be read: the headers over its columns, none named to have them guessed, and their units."""

    time: str = ""
    amps: str = ""
    volts: str = ""
    time_unit: str = "s"
    amps_unit: str = "A"
    volts_unit: str = "V"
    clamp_reversed: bool = False

    @property
    def headers(self) -> TraceHeaders | None:
        """Give the headers named, none where they are to be guessed; raises `Unreadable` for some of the three."""
        named = (self.time, self.amps, self.volts)
        if not any(named):
            return None
        if not all(named):
            raise Unreadable("time, amps, volts: name the headers over all three, or over none to have them guessed")
        return TraceHeaders(*named, self.time_unit, self.amps_unit, self.volts_unit)


GUESSED = ReadAs()


@dataclass(frozen=True, slots=True)
class SeenTrace:
    """A recording as it was read; `headers` are those it was read by, none for the binary form."""

    columns: Columns
    found: TraceFound
    headers: TraceHeaders | None

    def beads(self, numbers: tuple[int, ...]) -> ArcSpan:
        """Give some beads, numbered from 1, taken together; without numbers all of them."""
        known = range(1, len(self.found.beads) + 1)
        strange = sorted(set(numbers) - set(known))
        if strange:
            raise Unreadable(f"beads: {strange[0]} is none of them; the recording has beads 1 to {known[-1]}")
        return joined_beads([self.found.beads[number - 1] for number in sorted(set(numbers)) or known])


def read_trace(content: bytes, read_as: ReadAs = GUESSED) -> SeenTrace:
    """Read a recording, by its own headers when none are named; raises `Unreadable` in shop words."""
    try:
        if content.startswith(_BINARY):
            columns, read_by = read_binary_trace(content), None
        else:
            read_by = read_as.headers or guess_headers(content)
            columns = read_text_trace(content, read_by)
        if read_as.clamp_reversed:
            columns = columns._replace(amps=-columns.amps)
        found = trace_energy(*columns)
    except UnusableInput as slip:
        raise Unreadable(f"{slip.field}: found {_shown(slip.value)}; expected {slip.expected}. {slip.remedy}") from slip
    if not found.beads:
        raise Unreadable(_no_arc(columns))
    return SeenTrace(columns, found, read_by)


def _no_arc(columns: Columns) -> str:
    import numpy as np

    amps = columns.amps[np.isfinite(columns.amps)]
    low, high = float(amps.min(initial=0.0)), float(amps.max(initial=0.0))
    said = f"trace: no arc in it; amps run from {low:g} to {high:g}; expected 5 A or more at 5 to 30 V"
    if low < _REVERSED_BELOW_A:
        return f"{said}. The clamp sat the wrong way round: say so and send it again."
    return f"{said}. Check which columns hold amps and volts, and their units."


def _shown(value: object) -> str:
    text = value if isinstance(value, str) else ascii(value)
    return text if len(text) <= 120 else f"{text[:117]}..."
