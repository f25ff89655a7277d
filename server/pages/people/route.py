"""The addresses of the page of people, for the owner: set a PIN or pass phrase, end somebody's sessions."""

from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.people.page import DoorOf, PeoplePage
from server.record.book_of_lines import now_ms
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import Refusal
from server.work.set_pin import set_phrase, set_pin
from server.work.sign_in import is_off
from server.work.signature import Signing, prove_again

router = APIRouter(include_in_schema=False)
Owner = Annotated[Visitor, Depends(needs("owner"))]
_SETS = {"pin": set_pin, "password": set_phrase}


@router.get("/people", dependencies=[Depends(needs("owner"))])
def people(request: Request, done: str = "") -> Response:
    """Show who can sign in."""
    return _shown(request, "", done, ())


@router.post("/people/secret")
def give_secret(
    request: Request,
    visitor: Owner,
    person: Annotated[str, Form(max_length=60)],
    kind: Annotated[Literal["pin", "password"], Form()],
    new: Annotated[str, Form(max_length=200)],
    secret: Annotated[str, Form(max_length=200)],
) -> Response:
    """Set somebody's PIN or pass phrase, once the owner has proved themselves again."""
    record, at_ms = request.app.state.record, now_ms()
    try:
        meaning = f"{kind} of {person} set"
        prove_again(record, Signing(str(visitor.person), secret, visitor.device, "owner", meaning), at_ms)
        name = _SETS[kind](record, person, new, at_ms)
    except Refusal as refusal:
        return _shown(request, person, "", tuple(refusal.problems), 409)
    words = "PIN" if kind == "pin" else "pass phrase"
    return RedirectResponse(f"/people?done={quote(f'{name} has a new {words}')}", 303)


@router.post("/people/sign-out", dependencies=[Depends(needs("owner"))])
def sign_out(request: Request, person: Annotated[str, Form(max_length=60)]) -> Response:
    """End every session of somebody."""
    ended = Written(answer=lambda _: None, changes=(end_sessions(person=person),))
    request.app.state.record.write(lambda _: ended).result()
    return RedirectResponse(f"/people?done={quote(f'{person} is signed out everywhere')}", 303)


def _shown(request: Request, chosen: str, done: str, problems: tuple[str, ...], status: int = 200) -> Response:
    at_ms = now_ms()
    with request.app.state.record.reads() as reads:
        doors = _doors(reads, at_ms, request.app.state.settings.session_idle_minutes)
    return show(request, "people/people.html", PeoplePage(doors, chosen, done, problems), status)


def _doors(reads: Reads, at_ms: int, idle_minutes: int) -> tuple[DoorOf, ...]:
    tries, sessions = reads.all_failed_tries(), reads.sessions(at_ms)
    used = [each for each in sessions if each.seen_ms + idle_minutes * 60_000 > at_ms]
    people = sorted(reads.registers().people.values(), key=lambda each: each.name)
    return tuple(
        DoorOf(
            person,
            tuple(sorted(reads.credentials(person.id))),
            sum(each.tries for each in tries if each.person == person.id),
            any(is_off(each) for each in tries if each.person == person.id),
            tuple(sorted({each.device for each in used if each.person == person.id})),
        )
        for person in people
        if not person.left
    )
