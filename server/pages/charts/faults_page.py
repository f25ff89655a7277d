"""What the screen of faults shows: findings by how often they came, and one rare fault watched joint by joint."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from server.charts.control_sheet import ControlSheet, lay_track
from server.facts.finding import Finding
from server.facts.judged import Word
from server.judgement.rule import Rule
from server.pages.desk.page import rule_of
from server.statistics.bernoulli_cusum import bernoulli_cusum_chart
from server.statistics.chart import Track
from server.statistics.interval import Interval
from server.statistics.pareto import ParetoChart, pareto_chart
from server.statistics.share_interval import share_interval
from server.work.fault_series import ANY, JointMark

_NEWEST = 400
_TIMES_WORSE = 3.0
# Below this the chart's own sums grow past what one page should reckon; each such finding is read by itself.
_TOO_RARE = 0.002


@dataclass(frozen=True, slots=True)
class Watched:
    """One kind of fault watched joint by joint: the newest points, the sheet, the rates it was drawn for."""

    track: Track
    sheet: ControlSheet
    usual: float
    raised: float
    cannot_tell: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FaultsPage:
    """The faults by kind, and one kind watched over the newest joints; without a chart the reason is told."""

    question: str
    questions: tuple[str, ...]
    pareto: ParetoChart | None
    joints: tuple[JointMark, ...]
    seen: int
    share: Interval | None
    watched: Watched | None
    why_not: str

    def rule(self, question: str) -> Rule | None:
        """Give the rule that asks a question."""
        return rule_of(question)

    def asks(self, question: str) -> str:
        """Say what a question asks, in shop words."""
        if question == ANY:
            return "Any finding that stops a joint or has to be decided"
        rule = rule_of(question)
        return rule.asks if rule else question


def pareto_of(findings: Sequence[Finding]) -> ParetoChart | None:
    """Order the kinds of finding, none where nothing was found outside or unknown."""
    counts = Counter(each.verdict.question for each in findings if each.verdict.word in (Word.OUTSIDE, Word.UNKNOWN))
    return pareto_chart(counts) if counts else None


def faults_page(
    findings: Sequence[Finding], joints: Sequence[JointMark], question: str, questions: Sequence[str]
) -> FaultsPage:
    """Lay the screen out: the usual rate is the share of all joints, the raised one three times as much."""
    faulty = sum(each.faulty for each in joints)
    share = share_interval(faulty, len(joints)) if joints else None
    why_not = _why_not(faulty, len(joints))
    watched = None if why_not else _watched(joints, faulty / len(joints))
    newest, pareto = tuple(joints[-_NEWEST:]), pareto_of(findings)
    return FaultsPage(question, (ANY, *questions), pareto, newest, len(joints), share, watched, why_not)


def _why_not(faulty: int, seen: int) -> str:
    if not faulty:
        return "No joint was found faulty on this question, so there is no usual rate to watch against."
    if faulty / seen < _TOO_RARE:
        return "It is rarer than 1 joint in 500: read each one by itself; a chart would only answer after years."
    if faulty * 2 >= seen:
        return "Every second joint or more is faulty on it: nothing rare to watch. See what was found most instead."
    return ""


def _watched(joints: Sequence[JointMark], usual: float) -> Watched:
    raised = min(_TIMES_WORSE * usual, (1.0 + usual) / 2.0)
    chart = bernoulli_cusum_chart([each.faulty for each in joints], usual, raised)
    own = "The usual rate is that of all joints shown to the record, so a fault that was always there looks usual."
    track = _newest(chart.tracks[0])
    return Watched(track, lay_track(track), usual, raised, (own, *chart.cannot_tell))


def _newest(track: Track) -> Track:
    """Summed over all joints, shown for the newest."""
    return Track(track.name, track.points[-_NEWEST:], track.centre, track.lower[-_NEWEST:], track.upper[-_NEWEST:])
