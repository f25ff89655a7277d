"""Gathers what the charts of one quantity show, for the page and for its list."""

from collections.abc import Mapping, Sequence

from server.facts.finding import Finding
from server.facts.judged import Word
from server.pages.charts.page import ChartsPage, charts_of
from server.record.reads import Reads
from server.statistics.screen import Screened, screen
from server.work.charted import CHARTED
from server.work.measured_over_time import SHARED, Reading, measured_over_time
from server.work.refusal import NotThere


def charts_page(reads: Reads, quantity: str = "oxygen", shared: str = "bench", under: str = "") -> ChartsPage:
    """Chart one quantity by what its passes shared; raises `NotThere` for what is not on offer."""
    if quantity not in CHARTED or shared not in SHARED:
        offered = f"quantity is one of {', '.join(CHARTED)}; shared is one of {', '.join(SHARED)}"
        raise NotThere(f"no chart of {quantity!r} by {shared!r}: {offered}")
    groups, findings = measured_over_time(reads, quantity, shared), reads.findings()
    made_as = tuple(sorted({each.under for found in groups.values() for each in found}))
    if under:
        groups = {name: own for name, found in groups.items() if (own := [it for it in found if it.under == under])}
    drawn, too_few = charts_of(groups, CHARTED[quantity].least)
    compared = _compared(groups, findings, CHARTED[quantity].question)
    return ChartsPage(quantity, shared, under, made_as, drawn, too_few, compared)


def _compared(
    groups: Mapping[str, Sequence[Reading]], findings: Sequence[Finding], question: str
) -> tuple[Screened, ...]:
    """Hold the groups against one another by how many of their passes a finding about this quantity rests on."""
    at_fault = {
        entry
        for each in findings
        if each.verdict.question == question and each.verdict.word is Word.OUTSIDE
        for entry in each.verdict.rests_on
    }
    tallies = {name: (sum(each.entry in at_fault for each in found), len(found)) for name, found in groups.items()}
    return screen(tallies) if len(tallies) > 1 and any(faults for faults, _ in tallies.values()) else ()
