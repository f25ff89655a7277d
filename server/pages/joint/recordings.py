"""The recordings of a joint's passes as the joint's page draws them: amps, volts and power against time."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple
from urllib.parse import urlencode

from server.charts.curve_sheet import CurveSheet
from server.facts.supplies import Trace
from server.facts.welding import Pass
from server.pages.traces.picture import power_picture, trace_pictures
from server.record.files import FileDamaged, Files
from server.work.frame_passes import TracedPass
from server.work.refusal import Refusal
from server.work.trace_read import read_trace

_MOST_DRAWN = 6


class Recording(NamedTuple):
    """One recording of one pass: its pictures, or why there are none, and where to read it in full."""

    of: Pass
    trace: Trace
    pictures: tuple[CurveSheet, ...]
    why_none: str

    @property
    def link(self) -> str:
        """Where the recording is shown with its beads."""
        asked = {"of": self.of.id, "instrument": self.trace.instrument}
        return f"/traces/{self.trace.sha256}?{urlencode(asked)}"


def recordings_of(files: Files, passes: Sequence[TracedPass], joint: str) -> tuple[Recording, ...]:
    """Give the recordings attached to a joint's passes, the newest first; only so many are drawn on one page."""
    attached = [(each.entry, trace) for each in passes if each.entry.joint == joint for trace in each.traces]
    return tuple(_recordings(files, attached))


def _recordings(files: Files, attached: Sequence[tuple[Pass, Trace]]) -> Iterator[Recording]:
    for number, (of, trace) in enumerate(attached):
        if number < _MOST_DRAWN:
            yield _drawn(files, of, trace)
        else:
            yield Recording(of, trace, (), "It is one of many here; its own page draws it.")


def _drawn(files: Files, of: Pass, trace: Trace) -> Recording:
    try:
        content = files.read(trace.sha256)
        if content is None:
            return Recording(of, trace, (), "Its file is not kept here; its digest and what it measured are.")
        seen = read_trace(content)
    except (FileDamaged, Refusal) as refused:
        return Recording(of, trace, (), f"It cannot be drawn: {refused}")
    return Recording(of, trace, (*trace_pictures(seen), power_picture(seen)), "")
