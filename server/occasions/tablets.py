"""Devices as occasions, one for each stretch of a device's clock."""

from collections.abc import Iterator

from server.facts.occasion_tablet import TabletOccasion
from server.facts.subject import moment_subject
from server.occasions.about import About
from server.occasions.tables import Tables

_MINUTE_MS = 60_000


def tablet_occasions(tables: Tables, about: About = None) -> Iterator[TabletOccasion]:
    """Give every stretch of every device's clock; its subject is the minute it began, which later contacts keep."""
    for segment in tables.clocks.segments(about):
        minute = (segment.since_ms + _MINUTE_MS // 2) // _MINUTE_MS * _MINUTE_MS
        yield TabletOccasion(
            subject=moment_subject(segment.device, minute),
            device=segment.device,
            segment=segment,
            accept=tables.at(tables.days.day_of(segment.since_ms)),
        )
