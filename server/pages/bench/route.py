"""The bench's addresses: the page, its scripts under the build's name, and the service worker from the root."""

import gzip
import json
from functools import lru_cache
from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Request, Response

from server.pages.bench.page import BenchPage, bench_of
from server.pages.bench.shell import FOLDER, WORKER, build, shell_addresses, shell_files
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor

router = APIRouter(include_in_schema=False)
_TYPES = {".js": "text/javascript", ".css": "text/css"}
_AtTheBench = Annotated[Visitor, Depends(needs("welder", "fitter", "quality lead", "owner"))]


@router.get("/bench")
def open_bench(request: Request, visitor: _AtTheBench, bench: str | None = None) -> Response:
    """Show the bench of the visitor's device."""
    with request.app.state.record.reads() as reads:
        benches = reads.registers().benches
    device = visitor.device or "desk"
    return show(request, "bench/bench.html", BenchPage(build(), bench_of(device, benches, bench), device))


@router.get("/bench/app/{digest}/{name}")
def send_part(request: Request, digest: str, name: str) -> Response:
    """Send one script or style of a build; it may be kept for a year, since another build has another name."""
    file = next((each for each in shell_files() if each.name == name), None)
    if file is None:
        raise HTTPException(404, "The bench has no such script or style.")
    keep = "public, max-age=31536000, immutable" if digest == build() else "no-store"
    headers = {"Cache-Control": keep, "Vary": "Accept-Encoding"}
    body = file.read_bytes()
    if "gzip" in request.headers.get("accept-encoding", ""):
        body, headers["Content-Encoding"] = _small(body), "gzip"
    return Response(body, media_type=_TYPES[file.suffix], headers=headers)


@lru_cache(maxsize=128)
def _small(body: bytes) -> bytes:
    return gzip.compress(body, mtime=0)


@router.get("/sw.js")
def send_worker() -> Response:
    """Send the service worker, which names everything the tablet keeps; it is asked for anew every time."""
    told = f"const BUILD = {json.dumps(build())};\nconst SHELL = {json.dumps(shell_addresses())};\n"
    text = told + (FOLDER / WORKER).read_text(encoding="utf-8")
    return Response(text, media_type="text/javascript", headers={"Cache-Control": "no-cache"})
