"""The addresses of the page of tablets, for the owner: invite one, revoke one."""

from typing import Annotated, Literal
from urllib.parse import quote

import segno
from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.facts.looked_up import looked_up
from server.facts.registers import Registers
from server.pages.frame.access import needs
from server.pages.frame.door_history import door_history
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.tablets.page import InvitationShown, TabletHeard, TabletsPage, Typed
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.door_told import Hand
from server.work.enrolling import MINUTES, Invitations, may_be_named
from server.work.refusal import Refusal
from server.work.revoke_tablet import revoke_tablet
from server.work.signature import Signing, prove_again

router = APIRouter(include_in_schema=False)
Owner = Annotated[Visitor, Depends(needs("owner"))]
Name = Annotated[str, Form(max_length=60)]
_NOTHING_TYPED = Typed()
_OWN_SCREEN = ("localhost", "127.0.0.1", "::1")


@router.get("/tablets", dependencies=[Depends(needs("owner"))])
def tablets(request: Request, done: str = "") -> Response:
    """Show the tablets."""
    return _shown(request, done=done)


@router.post("/tablets/invite")
def invite(
    request: Request,
    visitor: Owner,
    device: Name,
    secret: Annotated[str, Form(max_length=200)],
    title: Name = "",
    bench: Name = "",
) -> Response:
    """Make a one-time invitation for a tablet, once the owner has proved themselves again."""
    record, invitations = request.app.state.record, request.app.state.invitations
    try:
        _prove(request, visitor, secret, f"tablet {device} invited")
        with record.reads() as reads:
            may_be_named(reads, device)
            bench = bench or _bench_of(reads, device)
    except Refusal as refusal:
        return _shown(request, problems=tuple(refusal.problems), status=409, typed=Typed(device, title, bench))
    return _shown(request, invitation=_invitation(request, invitations, visitor, device, title, bench or None))


@router.post("/tablets/revoke")
def revoke(
    request: Request,
    visitor: Owner,
    device: Name,
    secret: Annotated[str, Form(max_length=200)],
    entries: Annotated[Literal["", "rescued", "given up"], Form()] = "",
) -> Response:
    """Revoke a tablet, once its entries are safe and the owner has proved themselves again."""
    try:
        _prove(request, visitor, secret, f"tablet {device} revoked")
        record, at_ms = request.app.state.record, now_ms()
        hand = _hand(visitor)
        record.write(lambda reads: revoke_tablet(reads, device, at_ms, entries=entries, hand=hand)).result()
    except Refusal as refusal:
        typed = Typed(gone=device, entries=entries)
        return _shown(request, problems=tuple(refusal.problems), status=409, typed=typed)
    return RedirectResponse(f"/tablets?done={quote(f'{device} is revoked')}", 303)


def _bench_of(reads: Reads, device: str) -> str:
    """Give the bench the register has a tablet at, where the owner named none."""
    benches = reads.registers().benches.values()
    return next((each.id for each in benches if device in each.devices), "")


def _prove(request: Request, visitor: Visitor, secret: str, meaning: str) -> None:
    signing = Signing(str(visitor.person), secret, visitor.device, "owner", meaning)
    prove_again(request.app.state.record, signing, now_ms())


def _hand(visitor: Visitor) -> Hand:
    return Hand(visitor.person, "owner", visitor.device)


def _invitation(
    request: Request, invitations: Invitations, visitor: Visitor, device: str, title: str, bench: str | None
) -> InvitationShown:
    token = invitations.give(device, title or device, bench, now_ms(), _hand(visitor))
    # Behind the hash, which a browser keeps to itself: no log, no proxy and no other site's header ever holds it.
    address = f"{request.base_url}enrol#{token}"
    picture = segno.make(address, error="m", micro=False).svg_data_uri(scale=6, border=4)
    return InvitationShown(device, address, picture, request.url.hostname not in _OWN_SCREEN)


def _shown(
    request: Request,
    *,
    invitation: InvitationShown | None = None,
    done: str = "",
    problems: tuple[str, ...] = (),
    status: int = 200,
    typed: Typed = _NOTHING_TYPED,
) -> Response:
    with request.app.state.record.reads() as reads:
        page = _page(reads, invitation, done, problems, typed)
    return show(request, "tablets/tablets.html", page, status)


def _page(
    reads: Reads, invitation: InvitationShown | None, done: str, problems: tuple[str, ...], typed: Typed
) -> TabletsPage:
    enrolled, registers = reads.devices(), reads.registers()
    heard = reads.last_heard([each.id for each in enrolled])
    known = tuple(TabletHeard(each, heard.get(each.id)) for each in enrolled)
    live = {each.id for each in enrolled if each.revoked_ms is None}
    benches, named = _at_benches(registers)
    without = tuple(name for name in named if name not in live)
    history = door_history(registers.door_changes.values(), registers.people, lambda each: each.tablet)
    return TabletsPage(known, without, benches, invitation, MINUTES, history, done, problems, typed)


def _at_benches(registers: Registers) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Give the benches, and every tablet that is named at one, both in their order."""
    benches = registers.benches

    def read() -> tuple[tuple[str, ...], tuple[str, ...]]:
        named = {name for bench in benches.values() for name in bench.devices}
        return tuple(sorted(benches)), tuple(sorted(named))

    return looked_up(registers, "tablets at benches", (benches,), read)
