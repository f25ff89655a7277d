"""`GET /api/bench/{bench}`: a tablet's sheet; `GET /api/stock`: stock by number; `POST /api/prove`: a PIN or badge."""

import hashlib
import json
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Query, Request, Response
from pydantic import BaseModel, ConfigDict, Field

from server.api.admission import signed_in
from server.api.problem import documented
from server.record.book_of_lines import Record, now_ms
from server.work.badge import holder, read_badge
from server.work.bench_sheet import AskedSheet, bench_sheet
from server.work.bench_supplies import stock_found
from server.work.sign_in import Asked, WrongSecret
from server.work.signature import proved, their_own

router = APIRouter(prefix="/api", tags=["bench"])
_Visitor = Annotated[Any, Depends(signed_in)]


class ProveAsked(BaseModel):
    """A person at somebody else's tablet, with their own PIN or badge."""

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
    seen: dict[str, Any] = {"person": visitor.person, "name": visitor.name, "role": visitor.role}
    seen |= {"roles": list(visitor.roles), "since_ms": visitor.since_ms}
    body = json.dumps(told | {"visitor": seen}, ensure_ascii=False, separators=(",", ":")).encode()
    return _unless_known(request, body, told["made_at"])


def _unless_known(request: Request, body: bytes, made_at: str) -> Response:
    """Answer with the sheet, or only that nothing but its time has changed since the tablet asked last.

    Either way it says which build of the bench the house has now: a page left open knows by it that it is an older one.
    """
    tag = f'"{hashlib.sha256(body.replace(made_at.encode(), b"", 1)).hexdigest()[:32]}"'
    headers = {"ETag": tag, "Cache-Control": "private, no-cache", "Bench-Build": request.app.state.bench_build()}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    return Response(body, media_type="application/json", headers=headers)


@router.get("/stock", response_model=dict[str, Any], responses=documented(401))
def stock(request: Request, part: Annotated[str, Query(min_length=1, max_length=60)], _: _Visitor) -> dict[str, Any]:
    """Give the released sleeves and cylinders with this part in their number: a sheet offers only the newest."""
    record: Record = request.app.state.record
    with record.reads() as reads:
        return stock_found(reads.registers(), reads.at_benches(), part.strip())


@router.post("/prove", responses=documented(401, 409, 422))
def prove(request: Request, asked: ProveAsked, visitor: _Visitor) -> Proved:
    """Check the PIN or badge of a second person, where the first is signed in; wrong PINs count and wait."""
    record: Record = request.app.state.record
    who = Asked(asked.person, asked.secret, visitor.device or "desk")
    if read_badge(asked.secret):
        person = holder(record, asked.secret, who.device)
        if person.id != asked.person:
            raise WrongSecret("This badge is somebody else's. The person named scans their own, or keys in their PIN.")
    else:
        person = their_own(proved(record, who, now_ms()))
    return Proved(person=person.id, name=person.name)
