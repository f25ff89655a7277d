"""The history's addresses: the list of serials, and one serial with everything."""

from dataclasses import replace
from functools import partial
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from server.facts.claim import Claim
from server.facts.frame_papers import claims_of
from server.facts.legal_hold import LegalHold
from server.pages.frame.access import needs
from server.pages.frame.known_at import Position
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.frame.wording import local_moment
from server.pages.history.gather import serial_list
from server.pages.history.page import CertificatesPage, HistoryPage, states, way_of
from server.plan.picture import side_view
from server.record.reads import Reads
from server.work.frame_certificates import frame_certificates
from server.work.frame_history import frame_history
from server.work.frame_photos import frame_photos
from server.work.legal_hold import standing_hold
from server.work.upkeep_sheet import upkeep_word
from server.work.who_has_it import back_in_house

router = APIRouter(include_in_schema=False)


@router.get("/history")
def list_serials(
    request: Request, visitor: Annotated[Visitor, Depends(needs())], serial: str = "", part: int = 1
) -> Response:
    """List the serials, newest first; a whole serial leads straight to its history."""
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
        if serial in registers.packets:
            return RedirectResponse(f"/history/{serial}", 303)
        page = serial_list(reads, serial.strip(), part)
    if visitor.holds("owner"):
        page = replace(page, upkeep=upkeep_word(request.app.state.watched))
    return show(request, "history/list.html", page)


@router.get("/history/{serial}/certificates", dependencies=[Depends(needs("owner", "quality lead", "office"))])
def in_one_place(request: Request, serial: str) -> Response:
    """Show every certificate the frame rests on, with the files kept of each."""
    with request.app.state.record.reads() as reads:
        found = frame_certificates(reads, serial, partial(local_moment, zone=request.app.state.shop.zone))
        hold = standing_hold(reads.registers(), serial)
    return show(request, "history/certificates.html", CertificatesPage(serial, tuple(found), hold))


@router.get("/history/{serial}")
def whole_story(
    request: Request, serial: str, visitor: Annotated[Visitor, Depends(needs())], known_at: Position = None
) -> Response:
    """Show everything the record holds of one frame, as known now or at an earlier position."""
    with request.app.state.record.reads() as reads:
        story = frame_history(reads, serial, known_at)
        checkpoint = reads.newest_checkpoint()
        photos = frame_photos(reads, story)
        about, customers = _about(reads, serial), reads.registers().customers
    picture = side_view(story.design, story.packet.size) if story.design else None
    sealed = checkpoint.note.decode() if checkpoint else ""
    owner_sees = visitor.holds("owner", "office", "quality lead")
    way = way_of(story, customers if owner_sees else None)
    page = HistoryPage(story, picture, states(story), way, sealed, owner_sees, photos, *about)
    return show(request, "history/one.html", page)


def _about(reads: Reads, frame: str) -> tuple[tuple[Claim, ...], LegalHold | None, int | None]:
    """What stands beside the weld record: the claims on a frame, a legal hold, and when it came back."""
    registers = reads.registers()
    claims = claims_of(registers, frame)
    return claims, standing_hold(registers, frame), back_in_house(reads, registers, [frame]).get(frame)
