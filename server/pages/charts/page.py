"""What the charts' screen shows, and how readings become charts."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev
from urllib.parse import urlencode

from server.charts.control_sheet import ControlSheet, lay_track
from server.statistics.capability import Capability, capability
from server.statistics.caveats import ENOUGH_POINTS
from server.statistics.chart import ControlChart, Track
from server.statistics.cusum import cusum_chart
from server.statistics.ewma import ewma_chart
from server.statistics.individuals import individuals_chart
from server.statistics.screen import Screened
from server.work.charted import CHARTED
from server.work.measured_over_time import SHARED, Reading

_FEW = 5
_NEWEST = 200


@dataclass(frozen=True, slots=True)
class Fit:
    """How well the readings under one limit fit into it, and how many other readings stood under another."""

    low: float | None
    high: float | None
    it: Capability
    left_out: int


@dataclass(frozen=True, slots=True)
class GroupChart:
    """The newest readings of one group with their sheets, what each reading is, and what the charts cannot tell."""

    name: str
    readings: tuple[Reading, ...]
    tracks: tuple[Track, ...]
    sheets: tuple[ControlSheet, ...]
    fit: Fit | None
    cannot_tell: tuple[str, ...]

    @property
    def single_beyond(self) -> int:
        """How many single readings lie beyond a limit."""
        return sum(point.beyond for sheet in self.sheets if sheet.name == "individuals" for point in sheet.points)

    @property
    def shifted(self) -> bool:
        """Tell whether the smoothed readings or the sums say that a shift lasted."""
        lasting = (sheet for sheet in self.sheets if sheet.name in ("ewma", "up", "down"))
        return any(point.beyond for sheet in lasting for point in sheet.points)


@dataclass(frozen=True, slots=True)
class ChartsPage:
    """One quantity by what its passes shared, and the groups held against one another."""

    quantity: str
    shared: str
    under: str
    made_as: tuple[str, ...]
    groups: tuple[GroupChart, ...]
    too_few: tuple[str, ...]
    compared: tuple[Screened, ...]
    quantities: tuple[str, ...] = tuple(CHARTED)
    sharing: tuple[str, ...] = SHARED

    def words(self, quantity: str) -> str:
        """Name a quantity with its unit."""
        return f"{CHARTED[quantity].words} [{CHARTED[quantity].unit}]"

    @property
    def asked(self) -> str:
        """What was asked, as it stands in an address."""
        return urlencode({"quantity": self.quantity, "shared": self.shared, "under": self.under})

    @property
    def unit(self) -> str:
        """The unit of what is charted."""
        return CHARTED[self.quantity].unit


def charts_of(
    groups: Mapping[str, Sequence[Reading]], least: float | None = None
) -> tuple[tuple[GroupChart, ...], tuple[str, ...]]:
    """Chart every group with enough readings; name those with too few."""
    enough = {name: found for name, found in groups.items() if len(found) >= _FEW}
    drawn = tuple(_chart(name, found[-_NEWEST:], least) for name, found in enough.items())
    return drawn, tuple(set(groups) - set(enough))


def _chart(name: str, found: Sequence[Reading], least: float | None) -> GroupChart:
    values = [each.value for each in found]
    steady = min(ENOUGH_POINTS, len(values))
    charts = _control_charts(values, steady, least)
    told = [f"Limits come from the first {steady} readings shown; they are no acceptance limits."]
    if len({each.under for each in found}) > 1:
        told.append("Several procedures and runs stand mixed here; choose one to see its own spread.")
    told += [sentence for chart in charts for sentence in chart.cannot_tell]
    tracks = tuple(track for chart in charts for track in chart.tracks)
    sheets = tuple(lay_track(track) for track in tracks)
    return GroupChart(name, tuple(found), tracks, sheets, fit_of(found), tuple(dict.fromkeys(told)))


def _control_charts(values: Sequence[float], steady: int, least: float | None) -> list[ControlChart]:
    """Single readings with their moving range; where they spread at all, smoothed and summed as well."""
    singles = individuals_chart(values, baseline=steady, least=least)
    mean, sigma = singles.figures["mean"], singles.figures["sigma"]
    if sigma <= 0:
        return [singles]
    smoothed = ewma_chart(values, centre=mean, sigma=sigma, least=least)
    return [singles, smoothed, cusum_chart(values, target=mean, sigma=sigma)]


def fit_of(found: Sequence[Reading]) -> Fit | None:
    """Say how the readings fit into the limit that most of them were welded under; none where nothing was asked."""
    asked = Counter((each.low, each.high) for each in found if each.low is not None or each.high is not None)
    if not asked:
        return None
    (low, high), _ = asked.most_common(1)[0]
    values = [each.value for each in found if (each.low, each.high) == (low, high)]
    spread = stdev(values) if len(values) >= ENOUGH_POINTS else 0.0
    if spread <= 0:
        return None
    fits = capability(fmean(values), spread, len(values), low, high)
    return Fit(low, high, fits, len(found) - len(values))
