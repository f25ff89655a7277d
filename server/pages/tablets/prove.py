"""Where a tablet proves that it holds its own key: a number to sign, and what it shows for the next half hour."""

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from server.pages.frame.doorkeeper import (
    KEY_COOKIE,
    PROOF_COOKIE,
    SECURE_KEY_COOKIE,
    SECURE_PROOF_COOKIE,
    cookie_of,
)
from server.record.book_of_lines import now_ms
from server.work.device_proof import PROOF_LASTS_MS
from server.work.known_device import known_device
from server.work.refusal import NotSignedIn

router = APIRouter(include_in_schema=False)


class Signed(BaseModel):
    """The number that was given, and the tablet's signature over it, r and s in base64."""

    model_config = ConfigDict(extra="forbid")

    number: str = Field(max_length=100)
    signature: str = Field(max_length=200)


@router.post("/device/number")
def give_number(request: Request) -> Response:
    """Give a number to sign."""
    return JSONResponse({"number": request.app.state.proofs.give_number(now_ms())})


@router.post("/device/proof")
def prove(request: Request, signed: Signed) -> Response:
    """Check what the tablet signed, and let it be known for a while."""
    key = cookie_of(request.headers, SECURE_KEY_COOKIE, KEY_COOKIE)
    with request.app.state.record.reads() as reads:
        device = known_device(reads, key) if key else None
    if device is None or not device.public_key:
        raise NotSignedIn("The shop does not know this device, or the owner has revoked it. Let the owner enrol it.")
    shown = request.app.state.proofs.prove(device.id, device.public_key, signed.number, signed.signature, now_ms())
    answer, secure = Response(status_code=204), request.url.scheme == "https"
    name, lasts_s = SECURE_PROOF_COOKIE if secure else PROOF_COOKIE, PROOF_LASTS_MS // 1000
    answer.set_cookie(name, shown, max_age=lasts_s, httponly=True, secure=secure, samesite="strict", path="/")
    return answer
