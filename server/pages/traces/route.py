"""The trace screens' addresses: choose a pass and send a recording, look at it, attach it, log its free beads."""

from collections.abc import Callable
from contextlib import suppress
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response
from starlette.concurrency import run_in_threadpool

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.traces.asked import LookAsked, beads_to_log, look_asked
from server.pages.traces.gather import choose_page, kept_trace, look_page
from server.record.book_of_lines import now_ms
from server.work.attach_trace import TraceAsked, attach_trace
from server.work.beside_trace import beside_of
from server.work.frame_passes import one_pass
from server.work.house_entry import Writing
from server.work.in_turn import costly
from server.work.log_beads import log_beads
from server.work.refusal import Refusal, Unreadable
from server.work.told_once import DoneBefore
from server.work.trace_read import read_trace

router = APIRouter(prefix="/traces", include_in_schema=False)
Hand = Annotated[Visitor, Depends(needs("welder", "fitter", "quality lead", "owner"))]
Fields = list[tuple[str, str]]


@router.get("")
def choose(request: Request, _: Hand, frame: str = "", of: str = "") -> Response:
    """Show the passes of a frame and the form that sends a recording for one of them."""
    with request.app.state.record.reads() as reads:
        page = choose_page(reads, frame.strip(), {"of": of})
    return show(request, "traces/choose.html", page)


@router.post("", dependencies=[Depends(costly)])
async def send(request: Request, _: Hand) -> Response:
    """Take a recording in, see that it can be read, and show it; nothing is in the record yet."""
    told, content = await _form(request)
    return await run_in_threadpool(_sent, request, told, content)


@router.get("/{sha256}", dependencies=[Depends(costly)])
def look(request: Request, _: Hand, sha256: str, done: str = "") -> Response:
    """Show a kept recording beside its pass."""
    asked = look_asked(request.query_params.multi_items())
    _content, seen = kept_trace(request.app.state.files, sha256, asked)
    return show(request, "traces/look.html", look_page(request.app.state.record, seen, sha256, asked, done))


@router.post("/{sha256}/attach")
async def attach(request: Request, visitor: Hand, sha256: str) -> Response:
    """Attach the ticked beads to the pass: their measured energy is added, nothing is replaced."""
    told, _ = await _form(request)

    def attached(asked: LookAsked) -> None:
        content, seen = kept_trace(request.app.state.files, sha256, asked)
        if not asked.beads:
            raise Unreadable("beads: none ticked; tick those that belong to this pass")
        # All of them is written as none named, so that one and the same is one entry.
        beads = () if len(set(asked.beads)) == len(seen.found.beads) else asked.beads
        who, role = str(visitor.person), visitor.role
        trace = TraceAsked(asked.of, asked.instrument, content, who, role, beads, asked.read_as)
        attach_trace(request.app.state.record, request.app.state.files, trace, now_ms())

    return await run_in_threadpool(_done, request, sha256, told, attached, "attached")


@router.post("/{sha256}/passes")
async def log(request: Request, visitor: Hand, sha256: str) -> Response:
    """Log the ticked free beads as passes of the welder who laid them."""
    told, _ = await _form(request)

    def logged(asked: LookAsked) -> None:
        record = request.app.state.record
        beside = beside_of(record, asked.of, sha256, kept_trace(request.app.state.files, sha256, asked)[1])
        if beside is None:
            raise Unreadable("beads: this recording is not attached to the pass yet; attach it first")
        with record.reads() as reads:
            writing = Writing(str(visitor.person), visitor.role, now_ms(), reads.last_position())
        log_beads(record, beside, beads_to_log(told), writing)

    return await run_in_threadpool(_done, request, sha256, told, logged, "logged")


def _sent(request: Request, told: Fields, content: bytes) -> Response:
    record, filled = request.app.state.record, dict(told)
    try:
        asked = look_asked(told)
        with record.reads() as reads:
            one_pass(reads, asked.of)
        if not content:
            raise Unreadable("file: none chosen; choose the recording that the machine or the meter made")
        read_trace(content, asked.read_as)
        sha256 = request.app.state.files.keep(content)
    except Refusal as refusal:
        with record.reads() as reads:
            page = choose_page(reads, filled.get("frame", ""), filled, tuple(refusal.problems))
        return show(request, "traces/choose.html", page, 422)
    return RedirectResponse(f"/traces/{sha256}?{urlencode(asked.carried)}", 303)


def _done(
    request: Request, sha256: str, told: Fields, verb: Callable[[LookAsked], None], done: str
) -> Response:
    """Run a verb and show the recording again: as it stands now, or with what was wrong and the form still filled."""
    asked = look_asked(told)
    try:
        # The same sent twice ends as the first did.
        with suppress(DoneBefore):
            verb(asked)
    except Refusal as refusal:
        _content, seen = kept_trace(request.app.state.files, sha256, asked)
        page = look_page(request.app.state.record, seen, sha256, asked, "", tuple(refusal.problems))
        return show(request, "traces/look.html", page, 422)
    return RedirectResponse(f"/traces/{sha256}?{urlencode([*asked.carried, ('done', done)])}", 303)


async def _form(request: Request) -> tuple[Fields, bytes]:
    """Read a form: its text fields, and the bytes of its file where it has one."""
    async with request.form(max_files=1, max_fields=500) as form:
        told = [(name, value) for name, value in form.multi_items() if isinstance(value, str)]
        file: Any = form.get("file")
        content = b"" if file is None or isinstance(file, str) else await file.read()
    return told, content
