"""The registers' addresses: all of them on one screen, two to print for an inspector, and the files of certificates."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request, UploadFile
from fastapi.responses import Response

from server.pages.decisions.handing_out import handed_out
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.registers.gather import registers_page
from server.record.book_of_lines import now_ms
from server.work.keep_certificate import CertificateGiven, keep_certificate
from server.work.refusal import NotThere, Refusal

router = APIRouter(prefix="/registers", include_in_schema=False)
Reader = Annotated[Visitor, Depends(needs("quality lead", "owner", "office"))]
_TO_PRINT = {"continuity": "registers/continuity.html", "calibrations": "registers/calibrations.html"}


@router.get("")
def registers(request: Request, _: Reader, done: str = "") -> Response:
    """Show the registers as known now."""
    return _shown(request, "registers/registers.html", (), done)


@router.get("/{name}")
def to_print(request: Request, _: Reader, name: str) -> Response:
    """Show one register by itself, to be printed for an outside inspector."""
    template = _TO_PRINT.get(name)
    if template is None:
        raise NotThere(f"{name!r} is no register to print; there are {', '.join(_TO_PRINT)}")
    return _shown(request, template, ())


@router.post("/certificates")
def bring(
    request: Request, visitor: Reader, file: UploadFile, of: Annotated[str, Form(max_length=200)] = ""
) -> Response:
    """Keep a certificate's file beside its lot, heat, calibration or qualification."""
    record, files = request.app.state.record, request.app.state.files
    given = CertificateGiven(of, file.filename or "", file.file.read(), str(visitor.person))
    try:
        number = record.write(lambda reads: keep_certificate(reads, files, given, now_ms())).result()
    except Refusal as refusal:
        return _shown(request, "registers/registers.html", tuple(refusal.problems), chosen=of)
    return lead_on(f"/registers?done={number}#certificates", number)


@router.get("/certificates/{sha256}")
def certificate(request: Request, _: Reader, sha256: str) -> Response:
    """Hand out a certificate's file, byte for byte as it came."""
    with request.app.state.record.reads() as reads:
        named = any(each.sha256 == sha256 for each in reads.registers().certificate_files.values())
    content = request.app.state.files.read(sha256) if named else None
    if content is None:
        raise NotThere(f"no register line names a certificate file {sha256[:12]}…, or its file is not kept here")
    return handed_out(sha256, content, "kept")


def _shown(
    request: Request, template: str, problems: tuple[str, ...], done: str = "", chosen: str = ""
) -> Response:
    with request.app.state.record.reads() as reads:
        page = registers_page(reads, request.app.state.shop.zone, problems, done, chosen)
    return show(request, template, page, 422 if problems else 200)
