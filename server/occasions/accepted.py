"""The figures of the shop's acceptance file in force on each day."""

from bisect import bisect_right
from collections.abc import Iterable, Mapping

from server.facts.equipment import Acceptance


class Accepted:
    """All acceptance figures known; `on` is the day all is held against, none for the day of each occasion."""

    def __init__(self, figures: Iterable[Acceptance], on: int | None) -> None:
        ordered = sorted(figures, key=_start)
        self._starts: list[int] = []
        self._standing: list[Mapping[str, Acceptance]] = []
        standing: dict[str, Acceptance] = {}
        for figure in ordered:
            standing = {**standing, figure.name: figure}
            start = figure.valid_from.toordinal()
            if self._starts and self._starts[-1] == start:
                self._standing[-1] = standing
            else:
                self._starts.append(start)
                self._standing.append(standing)
        self._on = on

    def at(self, day: int) -> Mapping[str, Acceptance]:
        """Give the figures in force on a day, by name."""
        place = bisect_right(self._starts, day if self._on is None else self._on)
        return self._standing[place - 1] if place else {}


def _start(figure: Acceptance) -> tuple[int, str]:
    return figure.valid_from.toordinal(), figure.id
