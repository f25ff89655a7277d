"""What every control chart hands to whoever draws it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from server.statistics.errors import UnusableInput

Limits = tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class Track:
    """One line of a chart: points in the order of the input, its centre, a limit per point, and what lies beyond."""

    name: str
    points: tuple[float | None, ...]
    centre: float
    lower: Limits
    upper: Limits

    @property
    def signals(self) -> tuple[int, ...]:
        """The positions of the points beyond a limit, counted from 0."""
        rows = enumerate(zip(self.points, self.lower, self.upper, strict=True))
        return tuple(position for position, row in rows if _beyond(*row))


@dataclass(frozen=True, slots=True)
class ControlChart:
    """A chart ready for drawing: its tracks, the figures behind it and, in words, what it cannot tell."""

    kind: str
    tracks: tuple[Track, ...]
    figures: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    cannot_tell: tuple[str, ...] = ()

    def track(self, name: str) -> Track:
        """The track of that name, or an error that lists those there are."""
        for track in self.tracks:
            if track.name == name:
                return track
        names = ", ".join(track.name for track in self.tracks)
        raise UnusableInput("name", name, f"one of {names}", "Ask for a track this chart has.")


def level(limit: float | None, points: Sequence[object]) -> Limits:
    """The same limit for every point."""
    return (limit,) * len(points)


def _beyond(point: float | None, lower: float | None, upper: float | None) -> bool:
    """Whether a point that is there lies beyond a limit that is there."""
    if point is None:
        return False
    return (upper is not None and point > upper) or (lower is not None and point < lower)
