"""The addresses of standing-in: the list, the form by which lead or owner let somebody act for them, and its end."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.judgement.signing import DECIDERS
from server.pages.frame.access import needs
from server.pages.frame.form_day import end_of_day_ms
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import deciding_role
from server.pages.frame.visitor import Visitor
from server.pages.standing_in.page import StandingInPage
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.acting import standing_in
from server.work.refusal import Refusal
from server.work.signature import Signing, prove_again
from server.work.standing_in import StandInAsked, end_stand_in, let_stand_in

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
Short = Annotated[str, Form(max_length=60)]
Secret = Annotated[str, Form(max_length=200)]


@router.get("/standing-in")
def shown(request: Request, visitor: Lead, done: str = "") -> Response:
    """Show who stands in for whom."""
    with request.app.state.record.reads() as reads:
        page = _page(reads, visitor, {}, (), done)
    return show(request, "standing_in/standing_in.html", page)


@router.post("/standing-in")
def let(
    request: Request,
    visitor: Lead,
    secret: Secret,
    person: Short = "",
    role: Short = "",
    until: Annotated[str, Form(max_length=10)] = "",
    reason: Annotated[str, Form(max_length=400)] = "",
) -> Response:
    """Let somebody stand in, signed, or say why not."""
    filled = {"person": person, "role": role, "until": until, "reason": reason}
    signing = Signing(str(visitor.person), secret, visitor.device, role, f"{person} stands in as {role}")
    last_ms = end_of_day_ms(until, request.app.state.shop.zone)
    asked = StandInAsked(person, last_ms, reason, signing)
    record = request.app.state.record
    try:
        prove_again(record, signing, now_ms())
        number = record.write(lambda reads: let_stand_in(reads, asked, now_ms())).result()
    except Refusal as refusal:
        return _again(request, visitor, filled, refusal)
    return lead_on(f"/standing-in?done={number}", number)


@router.post("/standing-in/end")
def end(request: Request, visitor: Lead, which: Short, secret: Secret) -> Response:
    """End a standing-in, signed, or say why not."""
    record = request.app.state.record
    signing = Signing(str(visitor.person), secret, visitor.device, deciding_role(visitor), f"{which} is over")
    try:
        prove_again(record, signing, now_ms())
        number = record.write(lambda reads: end_stand_in(reads, which, signing, now_ms())).result()
    except Refusal as refusal:
        return _again(request, visitor, {}, refusal)
    return lead_on(f"/standing-in?done={number}", number)


def _again(request: Request, visitor: Visitor, filled: dict[str, str], refusal: Refusal) -> Response:
    with request.app.state.record.reads() as reads:
        page = _page(reads, visitor, filled, tuple(refusal.problems), "")
    return show(request, "standing_in/standing_in.html", page, 422)


def _page(
    reads: Reads, visitor: Visitor, filled: dict[str, str], problems: tuple[str, ...], done: str
) -> StandingInPage:
    registers = reads.registers()
    people = registers.people
    own = people.get(str(visitor.person))
    return StandingInPage(
        now=tuple(standing_in(registers, now_ms())),
        told=tuple(reversed(list(registers.stand_ins.values()))),
        people=tuple(each for each in people.values() if not each.left and each.id != visitor.person),
        own_roles=tuple(each for each in (own.roles if own else ()) if each in DECIDERS),
        filled=filled,
        problems=problems,
        done=done,
    )
