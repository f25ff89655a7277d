"""The pictures' addresses: the bytes of one, small or full, and the page that shows it large."""

from functools import lru_cache
from typing import Literal

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.documents.picture import smaller
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.photos.page import photo_page
from server.record.files import Files
from server.work.arrived_photo import photo_bytes
from server.work.frame_history import frame_history
from server.work.frame_photos import frame_photos
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)
Size = Literal["thumb", "full"]
LONGEST_PX: dict[Size, int] = {"thumb": 480, "full": 1600}
# Not to be kept by a proxy between: it is for whoever is signed in.
HEADERS = {"Cache-Control": "private, max-age=31536000, immutable", "Content-Disposition": "inline"}


@router.get("/photos/{sha256}", dependencies=[Depends(needs())])
def send_photo(request: Request, sha256: str, size: Size = "full") -> Response:
    """Send a picture set anew; the bytes that were sent are kept and never shown as they are."""
    files: Files = request.app.state.files
    with request.app.state.record.reads() as reads:
        found = photo_bytes(reads, files, sha256)
    return Response(shown_as(found.content, size), media_type="image/jpeg", headers=HEADERS)


@router.get("/history/{serial}/photos/{entry:path}", dependencies=[Depends(needs())])
def look_large(request: Request, serial: str, entry: str) -> Response:
    """Show one picture large, with the way to the one before and the one after."""
    with request.app.state.record.reads() as reads:
        photos = frame_photos(reads, frame_history(reads, serial))
    page = photo_page(serial, photos, entry)
    if page is None:
        raise NotThere(f"entry {entry!r} names no picture of {serial}; its pictures stand under its joints")
    return show(request, "photos/photo.html", page)


@lru_cache(maxsize=64)
def shown_as(content: bytes, size: Size) -> bytes:
    """Set a picture anew in one of the two sizes; the last few are remembered."""
    return smaller(content, LONGEST_PX[size])
