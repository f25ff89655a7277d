"""`GET /api/bench/{bench}`: a tablet's sheet; `POST /api/prove`: a second person's PIN, for a hold point."""

import hashlib
import json
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request, Response
from pydantic import BaseModel, ConfigDict, Field

from server.api.admission import signed_in
from server.api.problem import documented
from server.record.book_of_lines import Record, now_ms
from server.work.bench_sheet import AskedSheet, bench_sheet
from server.work.sign_in import Asked, check_secret, forget_tries, take_try

router = APIRouter(prefix="/api", tags=["bench"])
_Visitor = Annotated[Any, Depends(signed_in)]


class ProveAsked(BaseModel):
    """A person at somebody else's tablet, with their own PIN."""

    model_config = ConfigDict(extra="forbid")

    person: str = Field(min_length=1, max_length=60)
    secret: str = Field(min_length=1, max_length=200)


class Proved(BaseModel):
    """The person is who they say."""

    person: str
    name: str


@router.get("/bench/{bench}", response_model=dict[str, Any], responses=documented(401, 404))
def sheet(request: Request, bench: Annotated[str, Path(max_length=60)], visitor: _Visitor) -> Response:
    """Give a bench's sheet to somebody signed in: frames, cards, supplies, people, and the log they rest on."""
    record: Record = request.app.state.record
    with record.reads() as reads:
        told = bench_sheet(reads, AskedSheet(bench, visitor.device or "desk", now_ms()))
    seen = {"person": visitor.person, "name": visitor.name, "role": visitor.role, "roles": list(visitor.roles)}
    body = json.dumps(told | {"visitor": seen}, ensure_ascii=False, separators=(",", ":")).encode()
    return _unless_known(request, body, told["made_at"])


def _unless_known(request: Request, body: bytes, made_at: str) -> Response:
    """Answer with the sheet, or only that nothing but its time has changed since the tablet asked last."""
    tag = f'"{hashlib.sha256(body.replace(made_at.encode(), b"", 1)).hexdigest()[:32]}"'
    headers = {"ETag": tag, "Cache-Control": "private, no-cache"}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    return Response(body, media_type="application/json", headers=headers)


@router.post("/prove", responses=documented(401, 409, 422))
def prove(request: Request, asked: ProveAsked, visitor: _Visitor) -> Proved:
    """Check the PIN of a second person, on a tablet where the first is signed in; wrong tries count and wait."""
    record: Record = request.app.state.record
    who = Asked(asked.person, asked.secret, visitor.device or "desk")
    at_ms = now_ms()
    record.write(lambda reads: take_try(reads, who, at_ms)).result()
    with record.reads() as reads:
        person = check_secret(reads, who)
    record.write(lambda reads: forget_tries(reads, who)).result()
    return Proved(person=person.id, name=person.name)
