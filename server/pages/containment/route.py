"""The containments' addresses: the list, a new one from what shares a thing, one, and what was done about a frame."""

from typing import Annotated
from urllib.parse import parse_qs

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.pages.containment.page import ContainmentPage, ContainmentsPage, NewPage
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.long_form import LongForm
from server.pages.frame.moments import in_shop_words, typed_moment
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.what_else.asked import Asked, Question, asked_by, found_by
from server.record.book_of_lines import now_ms
from server.work.contain import ActTold, ContainmentTold, add_act, contain, containment_file
from server.work.refusal import Refusal
from server.work.who_has_it import back_in_house

router = APIRouter(include_in_schema=False, route_class=LongForm)
Reader = Annotated[Visitor, Depends(needs("owner", "quality lead", "office"))]
Leader = Annotated[Visitor, Depends(needs("owner", "quality lead"))]
Words = Annotated[str, Form(max_length=8000)]
Short = Annotated[str, Form(max_length=400)]


@router.get("/containments")
def list_containments(request: Request, _: Reader) -> Response:
    """List the containments, newest first."""
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    newest = sorted(registers.containments.values(), key=lambda each: -each.at)
    told = (each for each in registers.claim_steps.values() if each.step == "containment")
    in_claims = tuple(sorted(told, key=lambda each: -each.at))
    files = tuple(containment_file(registers, each.id) for each in newest)
    page = ContainmentsPage(files, in_claims, registers.customers)
    return show(request, "containment/list.html", page)


@router.get("/containment")
def new(request: Request, _: Leader, asked: Question) -> Response:
    """Offer a containment of what shares the things asked by, with a draft notice."""
    page = NewPage(found_by(request, asked), str(request.url.query), {}, ())
    return show(request, "containment/new.html", page)


@router.post("/containment")
def open_one(
    request: Request,
    visitor: Leader,
    asked: Short,
    title: Short = "",
    because: Words = "",
    notice: Words = "",
    frames: Annotated[list[str] | None, Form()] = None,
    claim: Short = "",
) -> Response:
    """Open it and show it."""
    told = ContainmentTold(title, tuple(frames or ()), because, notice, str(visitor.person), asked, claim.strip())
    try:
        number = request.app.state.record.write(lambda reads: contain(reads, told, now_ms())).result()
    except Refusal as refused:
        filled = {"title": title, "because": because, "notice": notice, "claim": claim}
        found, problems = found_by(request, _read(asked)), in_shop_words(request, refused)
        return show(request, "containment/new.html", NewPage(found, asked, filled, problems, told.frames), 422)
    return lead_on(f"/containments/{number}", number)


@router.get("/containments/{number}")
def one(request: Request, number: str, _: Reader) -> Response:
    """Show one containment with who was told and who was not."""
    return _one(request, number, {}, ())


@router.post("/containments/{number}")
def go_on(
    request: Request,
    visitor: Reader,
    number: str,
    frame: Short = "",
    act: Short = "",
    at: Short = "",
    words: Words = "",
    to: Short = "",
) -> Response:
    """Write what was done about one frame."""
    try:
        told = ActTold(number, frame, act, typed_moment(request, "at", at), words, str(visitor.person), to)
        added = request.app.state.record.write(lambda reads: add_act(reads, told, now_ms())).result()
    except Refusal as refused:
        filled = {"frame": frame, "act": act, "at": at, "words": words, "to": to}
        return _one(request, number, filled, in_shop_words(request, refused))
    return lead_on(f"/containments/{number}", added)


def _read(query: str) -> Asked:
    told = parse_qs(query)
    rest = {name: told.get(name, [""])[0] for name in ("since", "until", "check")}
    return asked_by(told.get("kind"), told.get("id"), **rest)


def _one(request: Request, number: str, filled: dict[str, str], problems: tuple[str, ...]) -> Response:
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
        file = containment_file(registers, number)
        home = back_in_house(reads, registers, file.paper.frames)
    page = ContainmentPage(file, filled, problems, registers.customers, home)
    return show(request, "containment/one.html", page, 422 if problems else 200)
