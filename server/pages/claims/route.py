"""The claims' addresses: the list, one claim, opening one, adding to one."""

from collections.abc import Sequence
from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request, UploadFile
from fastapi.responses import Response

from server.facts.claim import Claim
from server.facts.looked_up import looked_up
from server.facts.registers import Registers
from server.pages.claims.page import ClaimPage, ClaimsPage, said_by
from server.pages.decisions.handing_out import Size, handed_out
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.moments import in_shop_words, typed_moment
from server.pages.frame.paged import part_of
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.pages.history.page import states
from server.plan.picture import side_view
from server.record.book_of_lines import now_ms
from server.work.claims import ClaimTold, StepTold, add_step, claim_file, open_claim
from server.work.evidence_files import evidence_bytes, evidence_file, keep_evidence
from server.work.frame_history import frame_history
from server.work.legal_hold import standing_hold
from server.work.refusal import NotThere, Refusal

router = APIRouter(include_in_schema=False)
_AT_ONCE = 25
Reader = Annotated[Visitor, Depends(needs("owner", "quality lead", "office"))]
Words = Annotated[str, Form(max_length=8000)]
Short = Annotated[str, Form(max_length=160)]
Secret = Annotated[str, Form(max_length=200)]


@router.get("/claims")
def list_claims(request: Request, _: Reader, serial: str = "", joint: str = "", part: int = 1) -> Response:
    """List the claims, and offer the form for a new one."""
    return _list(request, {"serial": serial, "joint": joint}, (), part)


@router.post("/claims")
def start(
    request: Request,
    visitor: Reader,
    serial: Short = "",
    reported_by: Short = "",
    reported: Short = "",
    knew: Short = "",
    symptom: Words = "",
    joint: Short = "",
    quarter: Short = "",
) -> Response:
    """Open a claim and show it."""
    typed = {"serial": serial, "joint": joint, "reported_by": reported_by, "reported": reported, "knew": knew}
    try:
        told = ClaimTold(
            serial=serial.strip(),
            joint=joint.strip(),
            quarter=quarter,
            reported_by=reported_by,
            reported_ms=typed_moment(request, "reported", reported),
            knew_ms=typed_moment(request, "knew", knew),
            symptom=symptom,
            written_by=str(visitor.person),
        )
        number = request.app.state.record.write(lambda reads: open_claim(reads, told, now_ms())).result()
    except Refusal as refused:
        return _list(request, typed | {"symptom": symptom, "quarter": quarter}, in_shop_words(request, refused))
    return lead_on(f"/claims/{number}", number)


@router.get("/claims/{number}")
def one_claim(request: Request, number: str, _: Reader) -> Response:
    """Show one claim."""
    return _one(request, number, {}, ())


@router.post("/claims/{number}")
def go_on(
    request: Request,
    visitor: Reader,
    number: str,
    step: Short = "",
    at: Short = "",
    words: Words = "",
    to: Short = "",
    serial: Short = "",
    settled: Short = "",
    secret: Secret = "",
    second: Short = "",
    second_secret: Secret = "",
    file: list[UploadFile] | None = None,
) -> Response:
    """Add one step; a decision asks for the secret of whoever signs it, and what came with a step is kept."""
    try:
        hands = (secret, second, second_secret)
        signed = proved_signings(request, visitor, f"{settled}, {number}", *hands) if step == "decision" else ()
        told = StepTold(
            claim=number,
            step=step,
            at_ms=typed_moment(request, "at", at),
            words=words,
            written_by=str(visitor.person),
            to=to,
            serial=serial,
            settled=settled,
            signings=signed,
            files=keep_evidence(request.app.state.files, (each.file.read() for each in file or () if each.filename)),
        )
        added = request.app.state.record.write(lambda reads: add_step(reads, told, now_ms())).result()
    except Refusal as refused:
        typed = {"step": step, "at": at, "words": words, "to": to, "serial": serial, "settled": settled}
        typed["second"] = second
        return _one(request, number, typed, in_shop_words(request, refused))
    return lead_on(f"/claims/{number}", added)


@router.get("/claims/{number}/files/{sha256}")
def what_came_with_it(request: Request, number: str, sha256: str, _: Reader, size: Size = "full") -> Response:
    """Hand out a file that a step of this claim names; a picture may be shown, anything else is only to be saved."""
    with request.app.state.record.reads() as reads:
        named = any(sha256 in each.files for each in claim_file(reads.registers(), number).steps)
        content = evidence_bytes(reads, request.app.state.files, sha256) if named else None
    if content is None:
        raise NotThere(f"no step of {number} names a file {sha256[:12]}…")
    return handed_out(sha256, content, size)


def _list(request: Request, typed: dict[str, str], problems: tuple[str, ...], part: int = 1) -> Response:
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    shown = part_of(_newest_first(registers), part, _AT_ONCE, "/claims")
    page = ClaimsPage(shown, registers.customers, typed, problems)
    return show(request, "claims/claims.html", page, 422 if problems else 200)


def _newest_first(registers: Registers) -> Sequence[Claim]:
    def read() -> Sequence[Claim]:
        return sorted(registers.claims.values(), key=lambda each: each.reported, reverse=True)

    return looked_up(registers, "claims, newest first", (registers.claims,), read)


def _one(request: Request, number: str, typed: dict[str, str], problems: tuple[str, ...]) -> Response:
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
        found = claim_file(registers, number)
        story = frame_history(reads, found.claim.serial)
        named = [sha256 for step in found.steps for sha256 in step.files]
        files = {each: evidence_file(reads, request.app.state.files, each) for each in named}
        who_signs = signers(reads)
    picture = side_view(story.design, story.packet.size) if story.design else None
    who = said_by(found.claim, registers.customers)
    own = tuple(each for each in registers.containments.values() if each.claim == number)
    hold = standing_hold(registers, found.claim.serial)
    shown = (found, who, picture, states(story), who_signs)
    page = ClaimPage(*shown, problems, typed, files, registers.customers, own, hold, story.packet)
    return show(request, "claims/claim.html", page, 422 if problems else 200)
