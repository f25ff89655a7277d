"""What the charts' screen shows, and how readings become charts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from server.charts.control_sheet import ControlSheet, lay_track
from server.facts.quantities import QUANTITIES
from server.judgement.rule import Rule
from server.pages.desk.page import rule_of
from server.statistics.ewma import ewma_chart
from server.statistics.individuals import individuals_chart
from server.statistics.pareto import ParetoChart
from server.statistics.screen import Screened
from server.work.measured_over_time import CHARTED, SHARED, Reading

_FEW = 5
_BASELINE = 20
_NEWEST = 200


@dataclass(frozen=True, slots=True)
class GroupChart:
    """The newest readings of one group with their sheets, what each reading is, and what the charts cannot tell."""

    name: str
    readings: tuple[Reading, ...]
    sheets: tuple[ControlSheet, ...]
    cannot_tell: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChartsPage:
    """One quantity by what its passes shared, the faults by kind, and the groups held against one another."""

    quantity: str
    shared: str
    groups: tuple[GroupChart, ...]
    too_few: tuple[str, ...]
    pareto: ParetoChart | None
    compared: tuple[Screened, ...]
    quantities: tuple[str, ...] = CHARTED
    sharing: tuple[str, ...] = SHARED

    def words(self, quantity: str) -> str:
        """Name a quantity with its unit."""
        return f"{QUANTITIES[quantity].words} [{QUANTITIES[quantity].unit}]"

    def rule(self, question: str) -> Rule | None:
        """Give the rule that asks a question."""
        return rule_of(question)


def charts_of(groups: Mapping[str, Sequence[Reading]]) -> tuple[tuple[GroupChart, ...], tuple[str, ...]]:
    """Chart every group with enough readings; name those with too few."""
    enough = {name: found for name, found in groups.items() if len(found) >= _FEW}
    return tuple(_chart(name, found[-_NEWEST:]) for name, found in enough.items()), tuple(set(groups) - set(enough))


def _chart(name: str, found: Sequence[Reading]) -> GroupChart:
    values = [each.value for each in found]
    steady = min(_BASELINE, len(values))
    singles = individuals_chart(values, baseline=steady)
    tracks, told = list(singles.tracks), list(singles.cannot_tell)
    sigma = singles.figures["sigma"]
    if sigma > 0:
        smooth = ewma_chart(values, centre=singles.figures["mean"], sigma=sigma)
        tracks += smooth.tracks
        told += smooth.cannot_tell
    told.insert(0, f"Limits come from the first {steady} readings shown; they are no acceptance limits.")
    return GroupChart(name, tuple(found), tuple(lay_track(each) for each in tracks), tuple(dict.fromkeys(told)))
