"""The papers' addresses: a frame's traveller, and the sheet of labels."""

from typing import Annotated

from fastapi import APIRouter, Depends, Path, Request
from fastapi.responses import HTMLResponse

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.labels.page import label_sheet, traveller
from server.pages.labels.qr import qr_drawing
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)
_SomebodyHere = Annotated[Visitor, Depends(needs())]


@router.get("/traveller/{frame}")
def print_traveller(request: Request, _: _SomebodyHere, frame: Annotated[str, Path(max_length=60)]) -> HTMLResponse:
    """Show the traveller of a frame, to be printed on A4 and to go with it."""
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    packet = registers.packets.get(frame)
    design = registers.designs.get(packet.design) if packet else None
    if packet is None or design is None:
        raise NotThere(f"there is no job packet for {frame!r} with a released design; issue one, then print it")
    return show(request, "labels/traveller.html", {"traveller": traveller(packet, design), "qr": qr_drawing})


@router.get("/labels")
def print_labels(request: Request, _: _SomebodyHere) -> HTMLResponse:
    """Show labels for rod sleeves and cylinders, to be printed and cut."""
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    return show(request, "labels/labels.html", {"sheet": label_sheet(registers), "qr": qr_drawing})
