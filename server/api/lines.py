"""`GET /api/lines/{id}` and `GET /api/checkpoints/latest`: what the record holds of a line, and what was signed."""

from base64 import b64encode

from fastapi import APIRouter, Depends, Request
from pydantic import BaseModel, Field

from server.api.admission import known
from server.api.problem import documented
from server.facts.moment import show_moment
from server.record.book_of_lines import Record
from server.record.lines import StoredLine
from server.record.reading_lines import first_line
from server.work.refusal import NotThere
from server.work.sent_delivery import is_name

router = APIRouter(prefix="/api", tags=["record"], dependencies=[Depends(known)])


class LineShown(BaseModel):
    """A line as it is stored: its bytes as sent, and the envelope whose hash is its leaf."""

    position: int
    id: str
    kind: str
    device: str
    sent: str | None
    received: str
    state: str
    problem: str | None
    body: str = Field(description="the bytes as sent, in base64")
    body_sha256: str
    envelope: str = Field(description="the canonical line that is hashed; SHA-256 of 0x00 and it is the leaf")
    leaf: str


class LineWithSendings(LineShown):
    """A line, with every further sending of the same id: repeats and refused copies."""

    sendings: list[LineShown]


class CheckpointShown(BaseModel):
    """The newest signed checkpoint, as C2SP tlog-checkpoint has it."""

    origin: str
    size: int
    root: str = Field(description="the root over the first `size` leaves, in base64")
    note: str
    made: str


@router.get("/lines/{name:path}", responses=documented(401, 404))
def show_line(request: Request, name: str) -> LineWithSendings:
    """Show what stands in the record under one id."""
    record: Record = request.app.state.record
    with record.reads() as reads:
        sendings = reads.sendings_of(name) if is_name(name) else []
    found = first_line(sendings)
    if found is None:
        raise NotThere(f"there is no line {name!r} in the record; ask by the id on the receipt")
    others = [_shown(each) for each in sendings if each.position != found.position]
    return LineWithSendings(**_shown(found).model_dump(), sendings=others)


@router.get("/checkpoints/latest", responses=documented(401, 404))
def show_checkpoint(request: Request) -> CheckpointShown:
    """Show the newest signed checkpoint, to be kept outside the house."""
    record: Record = request.app.state.record
    with record.reads() as reads:
        signed = reads.newest_checkpoint()
    if signed is None:
        raise NotThere("no checkpoint was signed yet; one is signed after every 1000 lines and when the service ends")
    origin, size, root = signed.checkpoint
    return CheckpointShown(
        origin=origin,
        size=size,
        root=b64encode(root).decode(),
        note=signed.note.decode(),
        made=show_moment(signed.made_ms),
    )


def _shown(line: StoredLine) -> LineShown:
    return LineShown(
        position=line.position,
        id=line.id,
        kind=line.kind,
        device=line.device,
        sent=None if line.sent_ms is None else show_moment(line.sent_ms),
        received=show_moment(line.received_ms),
        state=line.state,
        problem=line.problem,
        body=b64encode(line.body).decode(),
        body_sha256=line.body_sha256.hex(),
        envelope=line.envelope.decode(),
        leaf=line.leaf.hex(),
    )
