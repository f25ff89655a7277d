"""The addresses of the page of people, for the owner: set a secret, print or take a badge, end sessions."""

from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.facts.people import Person
from server.pages.frame.access import needs
from server.pages.frame.door_history import door_history
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.labels.qr import qr_drawing
from server.pages.people.page import BadgePage, DoorOf, PeoplePage
from server.record.book_of_lines import now_ms
from server.record.door_facts import FailedTry, Session
from server.record.reads import Reads
from server.work.badge import print_badge, take_badge
from server.work.door_told import Hand
from server.work.end_sessions import sign_out
from server.work.refusal import Refusal
from server.work.set_pin import set_phrase, set_pin
from server.work.sign_in import is_off
from server.work.signature import Signing, prove_again

router = APIRouter(include_in_schema=False)
Owner = Annotated[Visitor, Depends(needs("owner"))]
Who = Annotated[str, Form(max_length=60)]
Secret = Annotated[str, Form(max_length=200)]
_SETS = {"pin": set_pin, "password": set_phrase}


@router.get("/people", dependencies=[Depends(needs("owner"))])
def people(request: Request, done: str = "") -> Response:
    """Show who can sign in."""
    return _shown(request, "", done, ())


@router.post("/people/secret")
def give_secret(
    request: Request,
    visitor: Owner,
    person: Who,
    kind: Annotated[Literal["pin", "password"], Form()],
    new: Secret,
    secret: Secret,
) -> Response:
    """Set somebody's PIN or pass phrase, once the owner has proved themselves again."""
    try:
        _prove(request, visitor, secret, f"{kind} of {person} set")
        name = _SETS[kind](request.app.state.record, person, new, now_ms(), _hand(visitor))
    except Refusal as refusal:
        return _shown(request, person, "", tuple(refusal.problems), 409, kind)
    words = "PIN" if kind == "pin" else "pass phrase"
    return _done(f"{name} has a new {words}")


@router.post("/people/badge")
def give_badge(request: Request, visitor: Owner, person: Who, secret: Secret) -> Response:
    """Make somebody's badge and show it this once, to be printed."""
    try:
        _prove(request, visitor, secret, f"badge of {person} printed")
        known, code = print_badge(request.app.state.record, person, _hand(visitor), now_ms())
    except Refusal as refusal:
        return _shown(request, person, "", tuple(refusal.problems), 409)
    page = BadgePage(known, code, qr_drawing(code, f"Badge of {known.name}"))
    return show(request, "people/badge.html", page)


@router.post("/people/badge/take")
def end_badge(request: Request, visitor: Owner, person: Who) -> Response:
    """Take somebody's badge away; what is lost must be shut at once, so nothing is asked again."""
    at_ms, hand = now_ms(), _hand(visitor)
    try:
        name = request.app.state.record.write(lambda reads: take_badge(reads, person, hand, at_ms)).result()
    except Refusal as refusal:
        return _shown(request, person, "", tuple(refusal.problems), 409)
    return _done(f"The badge of {name} opens nothing any more")


@router.post("/people/sign-out")
def end_all(request: Request, visitor: Owner, person: Who) -> Response:
    """End every session of somebody."""
    at_ms, hand = now_ms(), _hand(visitor)
    try:
        name = request.app.state.record.write(lambda reads: sign_out(reads, person, hand, at_ms)).result()
    except Refusal as refusal:
        return _shown(request, person, "", tuple(refusal.problems), 409)
    return _done(f"{name} is signed out everywhere")


def _prove(request: Request, visitor: Visitor, secret: str, meaning: str) -> None:
    signing = Signing(str(visitor.person), secret, visitor.device, "owner", meaning)
    prove_again(request.app.state.record, signing, now_ms())


def _hand(visitor: Visitor) -> Hand:
    return Hand(visitor.person, "owner", visitor.device)


def _done(words: str) -> Response:
    return RedirectResponse(f"/people?done={quote(words)}", 303)


def _shown(
    request: Request, chosen: str, done: str, problems: tuple[str, ...], status: int = 200, kind: str = "pin"
) -> Response:
    at_ms = now_ms()
    with request.app.state.record.reads() as reads:
        doors = _doors(reads, at_ms, request.app.state.settings.session_idle_minutes)
        registers = reads.registers()
    history = door_history(registers.door_changes.values(), registers.people, lambda each: each.person)
    return show(request, "people/people.html", PeoplePage(doors, history, chosen, kind, done, problems), status)


def _doors(reads: Reads, at_ms: int, idle_minutes: int) -> tuple[DoorOf, ...]:
    tries, sessions = reads.all_failed_tries(), reads.sessions(at_ms)
    used = [each for each in sessions if each.seen_ms + idle_minutes * 60_000 > at_ms]
    people = sorted(reads.registers().people.values(), key=lambda each: each.name)
    return tuple(_door(reads, person, tries, used) for person in people if not person.left)


def _door(reads: Reads, person: Person, tries: list[FailedTry], used: list[Session]) -> DoorOf:
    secrets, own = reads.credentials(person.id), [each for each in tries if each.person == person.id]
    return DoorOf(
        person,
        tuple(sorted(secrets)),
        sum(each.tries for each in own),
        any(is_off(each) for each in own),
        any(each.given for each in secrets.values()),
        tuple(sorted({each.device for each in used if each.person == person.id})),
    )
