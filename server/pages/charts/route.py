"""The charts' address: one quantity, split by what its passes shared."""

from collections import Counter
from collections.abc import Mapping, Sequence

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.facts.finding import Finding
from server.facts.judged import Word
from server.pages.charts.page import ChartsPage, charts_of
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.statistics.pareto import ParetoChart, pareto_chart
from server.statistics.screen import Screened, screen
from server.work.measured_over_time import CHARTED, SHARED, Reading, measured_over_time
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)


@router.get("/charts", dependencies=[Depends(needs("quality lead", "owner"))])
def charts(request: Request, quantity: str = "oxygen", shared: str = "purge line") -> Response:
    """Chart one quantity; what is asked for has to be one of those on offer."""
    if quantity not in CHARTED or shared not in SHARED:
        offered = f"quantity is one of {', '.join(CHARTED)}; shared is one of {', '.join(SHARED)}"
        raise NotThere(f"no chart of {quantity!r} by {shared!r}: {offered}")
    with request.app.state.record.reads() as reads:
        groups = measured_over_time(reads, quantity, shared)
        findings = reads.findings()
    drawn, too_few = charts_of(groups)
    page = ChartsPage(quantity, shared, drawn, too_few, _pareto(findings), _compared(groups, findings, quantity))
    return show(request, "charts/charts.html", page)


def _pareto(findings: Sequence[Finding]) -> ParetoChart | None:
    counts = Counter(each.verdict.question for each in findings if each.verdict.word in (Word.OUTSIDE, Word.UNKNOWN))
    return pareto_chart(counts) if counts else None


def _compared(
    groups: Mapping[str, Sequence[Reading]], findings: Sequence[Finding], quantity: str
) -> tuple[Screened, ...]:
    """Hold the groups against one another by how many of their passes a finding about this quantity rests on."""
    asks = {"oxygen": "purge-o2", "mean_current": "mean-current", "arc_on": "travel"}
    question = asks.get(quantity, quantity.replace("_", "-"))
    at_fault = {
        entry
        for each in findings
        if each.verdict.question == question and each.verdict.word is Word.OUTSIDE
        for entry in each.verdict.rests_on
    }
    tallies = {name: (sum(each.entry in at_fault for each in found), len(found)) for name, found in groups.items()}
    return screen(tallies) if len(tallies) > 1 and any(faults for faults, _ in tallies.values()) else ()
