"""`POST /api/traces`: a machine's recording for one pass, as a form with a file or as the bare bytes."""

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from pydantic import BaseModel, ConfigDict, Field
from starlette.concurrency import run_in_threadpool

from server.api.admission import signed_in
from server.api.problem import documented
from server.api.sent_file import sent_file
from server.facts.delivery import Receipt
from server.physics.trace_found import ArcSpan
from server.record.book_of_lines import now_ms
from server.work.attach_trace import Attached, TraceAsked, attach_trace
from server.work.in_turn import costly
from server.work.trace_read import ReadAs

router = APIRouter(prefix="/api", tags=["traces"])
MOST_BYTES = 40_000_000
"""A minute at 20 kHz is 10 MB in the binary form and about 30 MB as text."""


class TraceFor(BaseModel):
    """Which pass and instrument a recording belongs to, and how it is read where its headers do not say."""

    model_config = ConfigDict(extra="ignore")

    of: str = Field(min_length=3, max_length=160, description="id of the pass")
    instrument: str = Field(min_length=1, max_length=60, description="id of the instrument that recorded it")
    beads: str = Field(default="", max_length=400, pattern=r"^[0-9, ]*$", description="`1,2`; empty: all of them")
    time: str = Field(default="", max_length=80, description="header over time; empty: guessed from the file")
    amps: str = Field(default="", max_length=80, description="header over amps")
    volts: str = Field(default="", max_length=80, description="header over volts")
    time_unit: str = Field(default="s", max_length=20)
    amps_unit: str = Field(default="A", max_length=20)
    volts_unit: str = Field(default="V", max_length=20)
    clamp_reversed: bool = False

    @property
    def numbers(self) -> tuple[int, ...]:
        """The beads by their numbers."""
        return tuple(int(each) for each in self.beads.replace(",", " ").split())

    @property
    def read_as(self) -> ReadAs:
        """How the file is read."""
        return ReadAs(**self.model_dump(exclude={"of", "instrument", "beads"}))


class BeadFound(BaseModel):
    """One bead of a recording."""

    number: int
    start_s: float
    end_s: float
    energy_j: float
    energy_high_j: float = Field(description="at most, were what is missing at the highest power seen")
    arc_s: float
    mean_amps: float
    mean_volts: float
    undecided: bool


class TraceTaken(BaseModel):
    """The receipt of the entry, what was measured, and the beads that were found."""

    receipt: Receipt
    sha256: str
    sample_hz: float
    values: dict[str, dict[str, str]]
    energy_doubt_j: float | None
    flags: list[str]
    beads: list[BeadFound]


_BYTES: dict[str, Any] = {"type": "string", "format": "binary"}
_FORM = {"type": "object", "required": ["file"], "properties": {"file": _BYTES}}
_BODY = {
    "requestBody": {
        "required": True,
        "content": {
            "multipart/form-data": {"schema": _FORM},
            "text/csv": {"schema": _BYTES},
            "application/octet-stream": {"schema": _BYTES},
        },
    }
}


@router.post(
    "/traces",
    dependencies=[Depends(costly)],
    openapi_extra=_BODY,
    responses=documented(400, 401, 404, 409, 413, 422, 503, 507),
)
async def take_trace(
    request: Request, about: Annotated[TraceFor, Query()], visitor: Annotated[Any, Depends(signed_in)]
) -> TraceTaken:
    """Take a recording: check it, keep its file, and add what it measured to the pass, replacing nothing typed.

    409 says that these beads are attached already, 422 what in the file could not be read and what to do.
    """
    asked = TraceAsked(
        of=about.of,
        instrument=about.instrument,
        content=await sent_file(request, "the recording"),
        who=visitor.person,
        role=visitor.role,
        beads=about.numbers,
        read_as=about.read_as,
    )
    record, files = request.app.state.record, request.app.state.files
    return _told(await run_in_threadpool(attach_trace, record, files, asked, now_ms()), asked)


def _told(attached: Attached, asked: TraceAsked) -> TraceTaken:
    measured, found = attached.measured, attached.seen.found
    return TraceTaken(
        receipt=attached.receipt,
        sha256=asked.sha256,
        sample_hz=found.sample_hz,
        values=measured.values,
        energy_doubt_j=measured.energy_doubt_j,
        flags=list(measured.flags),
        beads=[_bead(number, span) for number, span in enumerate(found.beads, 1)],
    )


def _bead(number: int, span: ArcSpan) -> BeadFound:
    figures = {name: getattr(span, name) for name in BeadFound.model_fields if name != "number"}
    return BeadFound(number=number, **figures)
