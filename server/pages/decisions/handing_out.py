"""Hands out a file that a paper names: a picture set anew, anything else to be saved and never run as our page."""

from typing import Literal

from fastapi.responses import Response

from server.pages.photos.route import HEADERS, shown_as
from server.work.evidence_files import kind_of

Size = Literal["thumb", "full", "kept"]
_ENDINGS = {"PDF": ("application/pdf", "pdf"), "picture": ("application/octet-stream", "jpg")}
_KEPT = {"Cache-Control": "private, no-store", "Content-Security-Policy": "sandbox; default-src 'none'"}


def handed_out(sha256: str, content: bytes, size: Size) -> Response:
    """Give a picture as it may be shown; everything else, and a picture as it is kept, only to be saved."""
    kind = kind_of(content)
    if kind == "picture" and size != "kept":
        return Response(shown_as(content, size), media_type="image/jpeg", headers=HEADERS)
    media_type, ending = _ENDINGS.get(kind, ("application/octet-stream", "bin"))
    named = {"Content-Disposition": f'attachment; filename="{sha256[:16]}.{ending}"'}
    return Response(content, media_type=media_type, headers=_KEPT | named)
