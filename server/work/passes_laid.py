"""The passes somebody asked about on a band of time, by its columns; kept for the questions asked last."""

from collections.abc import Sequence
from typing import NamedTuple

from server.charts.time_band import Scale, columns_from
from server.occasions.uses import Use
from server.work.sought import Sought
from server.work.stretch import Stretch
from server.work.what_things import Thing

_NAME, _KEPT = "passes laid", 32


class _Laid(NamedTuple):
    """The columns that have a pass, and what they were read from."""

    uses: Sequence[Use]
    scale: Scale
    columns: tuple[int, ...]


class PassesLaid(NamedTuple):
    """The passes of an answer that has some."""

    sought: Sought

    @property
    def number(self) -> int:
        """How many."""
        return self.sought.passes

    @property
    def ends_ms(self) -> tuple[int, int]:
        """The first and the last [ms, UTC]."""
        return self.sought.ends_ms

    def columns(self, scale: Scale) -> tuple[int, ...]:
        """Give the columns of the band that have a pass; where the passes are the same list, those given before."""
        it = self.sought
        kept: dict[tuple[tuple[Thing, ...], Stretch], _Laid] = it.tables.made_of.kept(_NAME, (), lambda _: {})
        known = kept.pop((it.things, it.stretch), None)
        if known is None or known.uses is not it.uses or known.scale != scale:
            known = _Laid(it.uses, scale, tuple(columns_from(it.ends_ms[0], it.first_from, scale)))
        kept[it.things, it.stretch] = known
        for forgotten in list(kept)[:-_KEPT]:
            kept.pop(forgotten, None)
        return known.columns
