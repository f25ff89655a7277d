"""The gates' addresses; each judges by what is known at the moment of signing."""

from dataclasses import replace
from typing import Annotated, get_args

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.documents.certificate import certificate_pdf
from server.judgement.gates import Gate
from server.pages.frame.access import needs
from server.pages.frame.file_name import plain_name
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.pages.gate.page import MEANING, NEXT, GatePage, GateState, Typed
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.certificate import release_certificate
from server.work.frame_history import FrameStory, frame_history
from server.work.in_turn import costly
from server.work.legal_hold import standing_hold
from server.work.permit import PermissionAsked, reasons_shut
from server.work.permit_once import permit_once
from server.work.refusal import NotThere, Refusal
from server.work.signature import Signing
from server.work.until_judged import until_judged

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]


@router.get("/gate/{frame}")
def gates(request: Request, frame: str, visitor: Lead, done: str = "") -> Response:
    """Show what a frame's gates wait for."""
    with request.app.state.record.reads() as reads:
        page = _page(reads, frame, None, visitor, (), done)
    return show(request, "gate/gate.html", page)


@router.get(
    "/gate/{frame}/certificate", dependencies=[Depends(needs("quality lead", "owner", "office")), Depends(costly)]
)
def certificate(request: Request, frame: str) -> Response:
    """Send the release certificate as PDF; there is none before the release."""
    with request.app.state.record.reads() as reads:
        told = release_certificate(reads, frame)
    named = f'attachment; filename="certificate-{plain_name(frame)}.pdf"'
    return Response(certificate_pdf(told), media_type="application/pdf", headers={"Content-Disposition": named})


@router.get("/gate/hold-point/{frame}/{joint}")
def hold_point(request: Request, frame: str, joint: str, visitor: Lead, done: str = "") -> Response:
    """Show one seam that is to be hidden, with what its release waits for."""
    with request.app.state.record.reads() as reads:
        page = _page(reads, frame, joint, visitor, (), done)
    return show(request, "gate/gate.html", page)


@router.post("/gate/{frame}")
def pass_gate(
    request: Request,
    frame: str,
    visitor: Lead,
    gate: Annotated[str, Form(max_length=40)],
    secret: Annotated[str, Form(max_length=200)],
    joint: Annotated[str, Form(max_length=60)] = "",
    override: Annotated[str, Form(max_length=4000)] = "",
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
    customer: Annotated[str, Form(max_length=60)] = "",
) -> Response:
    """Sign at a gate, or show what it waits for."""
    record = request.app.state.record
    until_judged(record)
    try:
        asked = PermissionAsked(_gate(gate), frame, (), joint or None, override, customer)
        meaning = MEANING[asked.gate] + (", over what is open, for the reason given" if asked.override else "")
        signings = proved_signings(request, visitor, meaning, secret, second, second_secret)
        signed = replace(asked, signings=signings)
        number = record.write(lambda reads: permit_once(reads, signed, now_ms())).result()
    except Refusal as refusal:
        with record.reads() as reads:
            page = _page(reads, frame, joint or None, visitor, tuple(refusal.problems), "")
        page = replace(page, typed=Typed(gate, override, second, customer))
        return show(request, "gate/gate.html", page, 409)
    where = f"/gate/hold-point/{frame}/{joint}" if joint else f"/gate/{frame}"
    return lead_on(f"{where}?done={gate.replace(' ', '+')}", number)


def _gate(told: str) -> Gate:
    if told not in get_args(Gate):
        raise NotThere(f"gate: {told!r} is none of {', '.join(get_args(Gate))}")
    return told  # type: ignore[return-value]


def _page(
    reads: Reads, frame: str, joint: str | None, visitor: Visitor, problems: tuple[str, ...], done: str
) -> GatePage:
    story = frame_history(reads, frame)
    wanted: tuple[Gate, ...] = ("hold point",) if joint else NEXT
    me = Signing(str(visitor.person), "", visitor.device, visitor.role, "")
    states = tuple(_state(reads, story, PermissionAsked(gate, frame, (me,), joint)) for gate in wanted)
    found = next((each for each in story.joints if each.joint.id == joint), None)
    registers = reads.registers()
    beside = signers(reads), tuple(registers.customers.values())
    return GatePage(story, found, states, *beside, problems, done, standing_hold(registers, frame))


def _state(reads: Reads, story: FrameStory, asked: PermissionAsked) -> GateState:
    given = [each for each in story.permissions if (each.permits, each.joint) == (asked.gate, asked.joint)]
    return GateState(asked.gate, given[-1] if given else None, tuple(reasons_shut(reads, asked)))
