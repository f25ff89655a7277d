"""`POST /api/deliveries`: what tablets sent comes in, and a receipt for each goes out."""

import asyncio
import json
from typing import Any

from fastapi import APIRouter, Depends, HTTPException, Request, Response
from fastapi.responses import JSONResponse
from pydantic import BaseModel, Field

from server.api.admission import known
from server.api.problem import documented, problem_response
from server.facts.delivery import Receipt
from server.record.book_of_lines import Record, now_ms
from server.work.sent_delivery import MOST_ID, NAME_PATTERN, NoIdToAnswer, SentDelivery, from_request
from server.work.take_deliveries import take_deliveries

router = APIRouter(prefix="/api", tags=["deliveries"])
MOST_AT_ONCE = 1000


class Receipts(BaseModel):
    """One receipt for each delivery, in the order they were sent."""

    receipts: list[Receipt]


class SentAs(BaseModel):
    """A delivery as a device sends it. Only the id is insisted on: whatever else it holds is taken and answered for."""

    id: str = Field(min_length=3, max_length=MOST_ID, pattern=NAME_PATTERN)
    device: Any = Field(default=None, description="the device that sends it: text of 1 to 60 characters")
    sent_at: Any = Field(default=None, description="the device's clock when it was sent: 2025-03-18T12:05:00.000Z")
    line: Any = Field(default=None, description="the entry as its canonical line of JSON: text of at most 64 000 bytes")


class Batch(BaseModel):
    """What a device sends in one request."""

    deliveries: list[SentAs] = Field(max_length=MOST_AT_ONCE)


_SCHEMA = {"$ref": f"#/components/schemas/{Batch.__name__}"}
_BODY = {"requestBody": {"required": True, "content": {"application/json": {"schema": _SCHEMA}}}}


@router.post(
    "/deliveries",
    response_model=Receipts,
    openapi_extra=_BODY,
    dependencies=[Depends(known)],
    responses=documented(400, 401, 409, 413, 422, 503, 507),
)
async def take(request: Request) -> Response:
    """Take what a device sent: whatever has an id is kept for good before it is answered.

    409 says that a copy with other bytes was refused, 422 that something had no id; the receipts of all
    others are in that answer too, so that one bad entry never holds back the rest.
    """
    sendings, nameless = read_batch(await request.body(), now_ms())
    record: Record = request.app.state.record
    receipts = await asyncio.wrap_future(take_deliveries(record, sendings)) if sendings else ()
    told = [receipt.model_dump(mode="json") for receipt in receipts]
    if nameless:
        return problem_response(422, "; ".join(nameless), receipts=told)
    refused = [receipt.problem or "" for receipt in receipts if receipt.taken == "refused copy"]
    if refused:
        return problem_response(409, "; ".join(refused), receipts=told)
    return JSONResponse({"receipts": told})


def read_batch(body: bytes, received_ms: int) -> tuple[list[SentDelivery], list[str]]:
    """Read a request's sendings, and say of each without a proper id what is wrong with it."""
    sendings, nameless = [], []
    for number, value in enumerate(_deliveries(body)):
        try:
            sendings.append(from_request(value, f"deliveries[{number}]", received_ms))
        except NoIdToAnswer as slip:
            nameless.append(str(slip))
    return sendings, nameless


def _deliveries(body: bytes) -> list[Any]:
    try:
        found = json.loads(body)
    except (ValueError, RecursionError) as slip:
        raise Unreadable(400, f"the body is not JSON ({slip})") from slip
    deliveries = found.get("deliveries") if isinstance(found, dict) else None
    if not isinstance(deliveries, list):
        raise Unreadable(422, f"deliveries is {ascii(deliveries)[:60]}")
    if len(deliveries) > MOST_AT_ONCE:
        raise Unreadable(422, f"deliveries has {len(deliveries)} members; at most {MOST_AT_ONCE} at once are taken")
    return deliveries


class Unreadable(HTTPException):
    """A body in which no delivery can be made out."""

    def __init__(self, status: int, why: str) -> None:
        shape = '{"deliveries": [{"id": ..., "device": ..., "sent_at": ..., "line": ...}]}'
        super().__init__(status, f"{why}; expected {shape}; nothing was taken, so keep the entries and send them again")
