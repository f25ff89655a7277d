"""The concessions' addresses: the list with its uses, and the form on which both roles give one."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.judgement.book import RULES
from server.judgement.conceding import frames_used
from server.pages.frame.access import needs
from server.pages.frame.form_day import end_of_day_ms
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.pages.papers.page import ConcessionsPage, ConcessionState
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.concede import ConcessionAsked, concede
from server.work.refusal import Refusal

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
Words = Annotated[str, Form(max_length=4000)]


@router.get("/concessions", dependencies=[Depends(needs("quality lead", "owner"))])
def list_concessions(request: Request, done: str = "", frame: str = "", question: str = "") -> Response:
    """List the concessions and deviation permits with their uses."""
    with request.app.state.record.reads() as reads:
        page = _page(reads, (), {"frames": frame, "question": question}, done)
    return show(request, "papers/concessions.html", page)


@router.post("/concessions")
def give(
    request: Request,
    visitor: Lead,
    secret: Annotated[str, Form(max_length=200)],
    frames: Words = "",
    joints: Words = "",
    question: Annotated[str, Form(max_length=60)] = "",
    count: Annotated[str, Form(max_length=6)] = "",
    expires: Annotated[str, Form(max_length=10)] = "",
    before: Annotated[bool, Form()] = False,
    reason: Words = "",
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Give a concession, or say why it may not be given so."""
    record = request.app.state.record
    try:
        meaning = "deviation permit given" if before else "concession given"
        asked = ConcessionAsked(
            frames=tuple(frames.replace(",", " ").split()),
            joints=tuple(joints.replace(",", " ").split()),
            reason=reason,
            signings=proved_signings(request, visitor, meaning, secret, second, second_secret),
            question=question or None,
            count=int(count) if count.isdecimal() else None,
            expires_ms=end_of_day_ms(expires, request.app.state.shop.zone),
            before=before,
        )
        number = record.write(lambda reads: concede(reads, asked, now_ms())).result()
    except Refusal as refusal:
        filled = {"frames": frames, "joints": joints, "question": question, "count": count, "reason": reason}
        filled |= {"expires": expires, "before": "true" if before else "", "second": second}
        with record.reads() as reads:
            page = _page(reads, tuple(refusal.problems), filled, "")
        return show(request, "papers/concessions.html", page, 422)
    return lead_on(f"/concessions?done={number}", number)


def _page(reads: Reads, problems: tuple[str, ...], filled: dict[str, str], done: str) -> ConcessionsPage:
    registers = reads.registers()
    now = now_ms()
    papers = tuple(
        ConcessionState(
            each,
            tuple(frames_used(each.id, registers.decisions.values())),
            each.expires is not None and each.expires < now,
        )
        for each in registers.concessions.values()
    )
    questions = tuple(sorted((each.id, each.asks) for each in RULES))
    return ConcessionsPage(papers, questions, signers(reads), problems, filled, done)
