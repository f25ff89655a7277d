"""The nonconformities' addresses: the list, one to read and tell anew, a new one."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.pages.papers.page import NonconformitiesPage, NonconformityPage
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.nonconform import NonconformityTold, nonconform
from server.work.refusal import NotThere, Refusal
from server.work.suspect_sets import one_suspect_set

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
Words = Annotated[str, Form(max_length=8000)]


@router.get("/nonconformities", dependencies=[Depends(needs("quality lead", "owner"))])
def list_papers(request: Request, done: str = "") -> Response:
    """List the nonconformities, open ones first."""
    with request.app.state.record.reads() as reads:
        known = reads.registers().nonconformities.values()
    papers = tuple(sorted(known, key=lambda each: (each.closed is not None, each.id)))
    return show(request, "papers/nonconformities.html", NonconformitiesPage(papers, done))


@router.get("/nonconformities/{number}", dependencies=[Depends(needs("quality lead", "owner"))])
def one_paper(request: Request, number: str, check: str = "") -> Response:
    """Show one nonconformity, or an empty one; from a suspect set it starts with the joints still in."""
    with request.app.state.record.reads() as reads:
        filled = _from_check(reads, check) if check else {}
        page = _page(reads, number, (), filled)
    return show(request, "papers/nonconformity.html", page)


@router.post("/nonconformities/{number}")
def tell(
    request: Request,
    number: str,
    visitor: Lead,
    secret: Annotated[str, Form(max_length=200)],
    seen_position: Annotated[int, Form()] = 0,
    title: Words = "",
    findings: Words = "",
    held: Words = "",
    containment: Words = "",
    cause: Words = "",
    action: Words = "",
    recurred: Words = "",
    close: Annotated[bool, Form()] = False,
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Sign the nonconformity as told; each line of findings and held is one."""
    record = request.app.state.record
    words = {"containment": containment, "cause": cause, "action": action, "recurred": recurred, "title": title}
    try:
        meaning = "nonconformity closed" if close else "nonconformity as told"
        told = NonconformityTold(
            signings=proved_signings(request, visitor, meaning, secret, second, second_secret),
            number="" if number == "new" else number,
            seen_position=seen_position,
            findings=_lines(findings),
            held=_lines(held),
            close=close,
            **words,
        )
        done = record.write(lambda reads: nonconform(reads, told, now_ms())).result()
    except Refusal as refusal:
        with record.reads() as reads:
            filled = words | {"findings": findings, "held": held, "second": second, "close": "true" if close else ""}
            page = _page(reads, number, tuple(refusal.problems), filled)
        return show(request, "papers/nonconformity.html", page, 422)
    return lead_on(f"/nonconformities?done={done}", done)


def _page(reads: Reads, number: str, problems: tuple[str, ...], filled: dict[str, str]) -> NonconformityPage:
    registers = reads.registers()
    paper = registers.nonconformities.get(number)
    if paper is None and number != "new":
        raise NotThere(f"{number!r} is no nonconformity the record knows; see the list")
    seen = registers.positions.get(f"nonconformity:{number}", 0)
    tellings = len(reads.sendings_of(number)) if paper else 0
    return NonconformityPage(paper, seen, tellings, filled, signers(reads), problems)


def _from_check(reads: Reads, check: str) -> dict[str, str]:
    found = one_suspect_set(reads, check).set
    question = {"coupon": "coupon", "cross-check": "cross-check", "calibration": "instrument-calibrated"}
    lines = {each.purge_line for each in reads.registers().benches.values()}
    bead = "purge-bead" if found.thing in lines else "torch-bead"
    held = "\n".join(each.subject for each in found.still_in if each.whereabouts != "removed")
    return {"findings": f"{found.subject}|{question.get(found.kind, bead)}", "held": held}


def _lines(text: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.strip() for each in text.splitlines() if each.strip()))
