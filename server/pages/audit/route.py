"""The sample audit's addresses: the draws, drawing a week, one draw, and telling a second look."""

from typing import Annotated, get_args

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.facts.second_look import Outcome
from server.occasions.days import Days
from server.pages.audit.page import AuditPage, DrawPage
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.audit_state import audited, audited_week, tally_of, weeks_to_draw
from server.work.draw_sample import draw_sample, drawn_again, how_many, seal_after
from server.work.refusal import NotThere, Refusal
from server.work.tell_second_look import LookTold, tell_second_look
from server.work.told_once import ToldBefore
from server.work.until_judged import until_judged

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
Words = Annotated[str, Form(max_length=4000)]


@router.get("/audit", dependencies=[Depends(needs("quality lead", "owner"))])
def list_draws(request: Request) -> Response:
    """Show every draw and what they come to."""
    with request.app.state.record.reads() as reads:
        page = _list(reads, ())
    return show(request, "audit/list.html", page)


@router.post("/audit")
def draw(request: Request, visitor: Lead, week: Annotated[str, Form(max_length=10)]) -> Response:
    """Draw one week's sample, or say what it waits for."""
    record = request.app.state.record
    try:
        seal_after(record, week)
        request.app.state.judge.soon()
        until_judged(record)
        number = record.write(lambda reads: draw_sample(reads, week, str(visitor.person), now_ms())).result()
    except Refusal as refusal:
        with record.reads() as reads:
            if before := _drawn_by(reads, week, visitor):
                return lead_on(f"/audit/{before}", before)
            page = _list(reads, tuple(refusal.problems))
        return show(request, "audit/list.html", page, 422)
    return lead_on(f"/audit/{number}", number)


@router.get("/audit/{number}", dependencies=[Depends(needs("quality lead", "owner"))])
def one_draw(request: Request, number: str, done: str = "", subject: str = "") -> Response:
    """Show one draw with its joints."""
    with request.app.state.record.reads() as reads:
        page = _one(reads, number, {"subject": subject}, (), done)
    return show(request, "audit/one.html", page)


@router.post("/audit/{number}")
def look(
    request: Request,
    visitor: Lead,
    number: str,
    secret: Annotated[str, Form(max_length=200)],
    subject: Annotated[str, Form(max_length=120)] = "",
    outcome: Annotated[str, Form(max_length=20)] = "",
    words: Words = "",
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Sign what a second look found, or say why it may not stand so."""
    record = request.app.state.record
    try:
        if outcome not in get_args(Outcome):
            raise Refusal(f"outcome: {outcome!r} is none of {', '.join(get_args(Outcome))}")
        signings = proved_signings(request, visitor, f"second look: {outcome}", secret, second, second_secret)
        told = LookTold(number, subject, outcome, words, signings)  # type: ignore[arg-type]
        number_told = record.write(lambda reads: tell_second_look(reads, told, now_ms())).result()
    except Refusal as refusal:
        filled = {"subject": subject, "outcome": outcome, "words": words, "second": second}
        with record.reads() as reads:
            page = _one(reads, number, filled, tuple(refusal.problems), "")
        return show(request, "audit/one.html", page, 422)
    return lead_on(f"/audit/{number}?done={subject.replace('#', '%23')}", number_told)


def _drawn_by(reads: Reads, week: str, visitor: Visitor) -> ToldBefore | None:
    """Give the draw of a week that the same person asks for once more."""
    draws = reads.registers().sample_draws.values()
    return next((ToldBefore(each.id) for each in draws if (each.week, each.drawn_by) == (week, visitor.person)), None)


def _list(reads: Reads, problems: tuple[str, ...]) -> AuditPage:
    registers = reads.registers()
    weeks = audited(registers)
    today = Days(registers.zone).day_of(now_ms())
    overall = tally_of(joint for week in weeks for joint in week.joints)
    offered = weeks_to_draw(reads, registers, now_ms())
    return AuditPage(weeks, offered, how_many(registers, today), overall, problems)


def _one(reads: Reads, number: str, filled: dict[str, str], problems: tuple[str, ...], done: str) -> DrawPage:
    registers = reads.registers()
    found = registers.sample_draws.get(number)
    if found is None:
        raise NotThere(f"{number!r} is no draw the record knows; see the list of the sample audit")
    week = audited_week(found, registers.second_looks)
    return DrawPage(week, drawn_again(reads, found), signers(reads), filled, problems, done)
