"""`POST /api/photos`: the bytes of a picture that an entry names; the entry itself never waits for them."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool

from server.api.admission import known
from server.api.problem import documented
from server.api.sent_file import sent_file
from server.documents.picture import MOST_BYTES
from server.facts.delivery import Receipt
from server.record.book_of_lines import now_ms
from server.work.keep_photo import PhotoSent, keep_photo
from server.work.sent_delivery import NAME_PATTERN

router = APIRouter(prefix="/api", tags=["photos"])
_BYTES = {"type": "string", "format": "binary"}
_FORM = {"type": "object", "required": ["file"], "properties": {"file": _BYTES}}
_TYPES = ("image/jpeg", "image/png", "image/webp", "application/octet-stream")
_CONTENT = {"multipart/form-data": {"schema": _FORM}} | {each: {"schema": _BYTES} for each in _TYPES}


class PhotoOf(BaseModel):
    """Which frame the picture is of, as far as its sender says so."""

    model_config = ConfigDict(extra="ignore")

    frame: str | None = Field(default=None, min_length=1, max_length=60, pattern=NAME_PATTERN)


class PhotoTaken(BaseModel):
    """The receipt of a picture; against `sha256` and the receipt alone may a tablet let its own copy go."""

    sha256: str = Field(description="of the bytes as they came, which is what an entry names")
    kept_sha256: str = Field(description="of the bytes that are kept; another one where something was taken out")
    width_px: int
    height_px: int
    looks_like: str = Field(description="64-bit difference hash, in hex")
    receipt: Receipt


@router.post(
    "/photos",
    openapi_extra={"requestBody": {"required": True, "content": _CONTENT}},
    dependencies=[Depends(known)],
    responses=documented(400, 401, 413, 422, 503, 507),
)
async def take_photo(request: Request, about: Annotated[PhotoOf, Query()]) -> PhotoTaken:
    """Take a picture: JPEG, PNG or WebP by its content, kept under its SHA-256; sent again it is taken before.

    What a picture tells beside itself (place, camera, owner) is taken out before it is kept.
    """
    visitor = getattr(request.state, "visitor", None)
    sent = PhotoSent(
        content=await sent_file(request, "the picture"),
        frame=about.frame,
        who=visitor.person if visitor else None,
        role=visitor.role if visitor and visitor.role else None,
        sent_by=(visitor.enrolled_as or visitor.device or None) if visitor else None,
    )
    kept = await run_in_threadpool(keep_photo, request.app.state.record, request.app.state.files, sent, now_ms())
    told = kept.arrived.model_dump(include=set(PhotoTaken.model_fields) - {"receipt"})
    return PhotoTaken(receipt=kept.receipt, **told)


__all__ = ["MOST_BYTES", "router"]
