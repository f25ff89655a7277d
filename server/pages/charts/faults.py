"""The address of the faults' charts: what was found most, and one kind of fault watched joint by joint."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.pages.charts.faults_page import FaultsPage, faults_page
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.record.reads import Reads
from server.work.fault_series import ANY, fault_series, questions_of_joints
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)


@router.get("/charts/faults", dependencies=[Depends(needs("quality lead", "owner"))])
def faults(request: Request, question: str = ANY) -> Response:
    """Show what was found most, and watch one question; it has to be one on which a joint was found faulty."""
    with request.app.state.record.reads() as reads:
        page = watched_faults(reads, question)
    return show(request, "charts/faults.html", page)


def watched_faults(reads: Reads, question: str = ANY) -> FaultsPage:
    """Gather it; raises `NotThere` for a question nothing was found on."""
    findings = reads.findings()
    questions = questions_of_joints(findings)
    if question not in (ANY, *questions):
        offered = ", ".join((ANY, *questions))
        raise NotThere(f"question: no joint was found faulty on {question!r}; choose {offered}")
    return faults_page(findings, fault_series(reads, findings, question), question, questions)
