"""The dossier's addresses: a frame or one joint as PDF/A-3 with its data inside, as JSON, and as CSV."""

from functools import partial
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import Response

from server.charts.frame_drawing import frame_drawing
from server.charts.oxygen_series import oxygen_series
from server.documents.dossier import dossier_json, dossier_pdf
from server.documents.dossier_csv import dossier_csv
from server.pages.frame.access import needs
from server.pages.frame.entry_words import entry_words
from server.pages.frame.file_name import plain_name
from server.pages.frame.shop_words import shop_words
from server.pages.frame.wording import in_unit, local_moment
from server.record.signing_key import known_keys
from server.work.dossier import About, ForWhom, dossier, pictured_dossier
from server.work.dossier_joints import Wording
from server.work.in_turn import costly

router = APIRouter(
    include_in_schema=False, dependencies=[Depends(needs("owner", "quality lead", "office")), Depends(costly)]
)
Asked = Annotated[ForWhom, Query(alias="for")]


@router.get("/history/{serial}/dossier.pdf")
def as_document(request: Request, serial: str, for_whom: Asked = "shop") -> Response:
    """Give the document; `?for=customer` leaves out people, other customers and their frames."""
    return _document(request, About(serial, "", for_whom))


@router.get("/history/{serial}/dossier.json")
def as_json(request: Request, serial: str, for_whom: Asked = "shop") -> Response:
    """Give the data of the document, byte for byte what is attached to it."""
    return _sent(dossier_json(_told(request, About(serial, "", for_whom))), About(serial, "", for_whom), "json")


@router.get("/history/{serial}/dossier.csv")
def as_sheet(request: Request, serial: str, for_whom: Asked = "shop") -> Response:
    """Give the entries as a sheet."""
    return _sheet(request, About(serial, "", for_whom))


@router.get("/history/{serial}/{joint}/dossier.pdf")
def of_one_joint(request: Request, serial: str, joint: str, for_whom: Asked = "shop") -> Response:
    """Give the document of one joint."""
    return _document(request, About(serial, joint, for_whom))


@router.get("/history/{serial}/{joint}/dossier.json")
def data_of_one_joint(request: Request, serial: str, joint: str, for_whom: Asked = "shop") -> Response:
    """Give the data of one joint's document."""
    about = About(serial, joint, for_whom)
    return _sent(dossier_json(_told(request, about)), about, "json")


@router.get("/history/{serial}/{joint}/dossier.csv")
def sheet_of_one_joint(request: Request, serial: str, joint: str, for_whom: Asked = "shop") -> Response:
    """Give the entries of one joint's document as a sheet."""
    return _sheet(request, About(serial, joint, for_whom))


def _document(request: Request, about: About) -> Response:
    with request.app.state.record.reads() as reads:
        asked = about._replace(key=_key(request))
        found = pictured_dossier(reads, request.app.state.files, asked, _wording(request))
    drawn = oxygen_series(found.told) | frame_drawing(found.view, found.told)
    return _sent(dossier_pdf(found.told, found.pictures, drawn), about, "pdf")


def _sheet(request: Request, about: About) -> Response:
    return _sent(dossier_csv(_told(request, about)).encode("utf-8-sig"), about, "csv")


def _told(request: Request, about: About) -> dict[str, Any]:
    with request.app.state.record.reads() as reads:
        return dossier(reads, about.frame, _wording(request), about.for_whom, about.joint, _key(request))


def _key(request: Request) -> str:
    """The public key the record signs by, in writing; none where it signs nothing."""
    return next(map(str, known_keys(request.app.state.settings.data_folder)), "")


def _wording(request: Request) -> Wording:
    zone = request.app.state.shop.sheet().zone
    return Wording(entry_words, partial(local_moment, zone=zone), partial(shop_words, zone=zone), in_unit)


_KINDS = {"pdf": "application/pdf", "json": "application/json", "csv": "text/csv; charset=utf-8"}


def _sent(body: bytes, about: About, ending: str) -> Response:
    """Send it under a name that tells the customer's version from the shop's own."""
    version = ["for-customer"] if about.for_whom == "customer" else []
    place = [plain_name(about.frame), *([plain_name(about.joint)] if about.joint else [])]
    name = "-".join([*place, "dossier", *version])
    shown = {"Content-Disposition": f'inline; filename="{name}.{ending}"'}
    return Response(body, media_type=_KINDS[ending], headers=shown)
