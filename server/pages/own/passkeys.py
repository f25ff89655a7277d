"""The addresses of one's own passkeys, for lead and owner: what the browser is asked, one added, one taken away."""

from ipaddress import ip_address
from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from server.pages.frame.access import needs
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import now_ms
from server.work.door_told import Hand
from server.work.passkey_asking import House, ask_to_make
from server.work.passkeys import HOLDERS, Answered, add, take_away
from server.work.signature import Signing, prove_again

router = APIRouter(include_in_schema=False)
Holder = Annotated[Visitor, Depends(needs(*HOLDERS))]


class NewPasskey(BaseModel):
    """What the browser made, what its person calls it, and their PIN or pass phrase again."""

    model_config = ConfigDict(extra="forbid")

    title: str = Field(min_length=1, max_length=60)
    secret: str = Field(min_length=1, max_length=200)
    credential: dict[str, Any]


def house_of(request: Request) -> House:
    """Give the house as this browser reached it."""
    return House(str(request.url.hostname), f"{request.url.scheme}://{request.url.netloc}", "Strawline")


def has_a_name(request: Request) -> bool:
    """Tell whether the page was reached by a name: browsers keep no passkey for a bare number."""
    try:
        ip_address(str(request.url.hostname))
    except ValueError:
        return True
    return False


@router.post("/own/passkeys/ask")
def ask(request: Request, visitor: Holder) -> Response:
    """Say what the browser is to make."""
    challenge = request.app.state.challenges.give(visitor.person, now_ms())
    with request.app.state.record.reads() as reads:
        person, known = reads.registers().people[str(visitor.person)], reads.passkeys(visitor.person)
    return Response(ask_to_make(house_of(request), person, known, challenge), media_type="application/json")


@router.post("/own/passkeys")
def keep(request: Request, visitor: Holder, new: NewPasskey) -> Response:
    """Keep what the browser made, once its person has proved themselves again."""
    record, at_ms = request.app.state.record, now_ms()
    meaning = f"passkey {new.title} added"
    prove_again(record, Signing(str(visitor.person), new.secret, visitor.device, visitor.role, meaning), at_ms)
    hand = Hand(visitor.person, visitor.role, visitor.device)
    add(record, request.app.state.challenges, Answered(new.credential, house_of(request), at_ms), hand, new.title)
    return Response(status_code=204)


@router.post("/own/passkeys/drop")
def drop(request: Request, visitor: Holder, passkey: Annotated[str, Form(max_length=1400)]) -> Response:
    """Take one's own passkey away."""
    at_ms, hand = now_ms(), Hand(visitor.person, visitor.role, visitor.device)
    title = request.app.state.record.write(lambda reads: take_away(reads, passkey, hand, at_ms)).result()
    return RedirectResponse(f"/own?done={quote(f'The passkey {title} is taken away')}", 303)
