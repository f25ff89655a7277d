"""How long the owner's and the lead's pages take in a big record, and the record's reads beside hand-written SQL.

    python -m tests.benchmarks.page_speed /tmp/small /tmp/big

Each folder was made by `big_record`. The same pages of the same frame are asked in each, in one run; a page is timed in
process from the request to the last byte, without a network, the median of some rounds after the first ones.
"""

import sys
from contextlib import closing
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any, NamedTuple, cast

import anyio
import httpx
from fastapi import FastAPI
from starlette.types import ASGIApp, Receive, Scope, Send

from server.app import build_app
from server.pages.frame.doorkeeper import Doorkeeper
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import Record
from server.settings import read_settings

FRAME, JOINT, CLAIM = "MT-0041", "J06", "W-26-004"
PAGES = {
    "history of a serial": f"/history/{FRAME}",
    "a joint": f"/history/{FRAME}/{JOINT}",
    "a claim": f"/claims/{CLAIM}",
    "claims": "/claims",
    "serials, newest first": "/history",
    "serials, searched": "/history?serial=0041",
    "open on shipped frames": "/open-on-shipped",
    "morning list": "/desk",
    "cause table": f"/history/{FRAME}/{JOINT}/causes",
    "what else, by cylinder": "/what-else?kind=cylinder&id=AR-0317",
    "what else, by sleeve": "/what-else?kind=sleeve&id=FT-0159",
}
_OWNER = Visitor("O01", "Owner", "owner", ("owner", "quality lead"))
_ROUNDS = 9


class Taken(NamedTuple):
    """What a page took the first time [s, wall], and then, in the middle: processor time and wall [s]; its bytes."""

    first_s: float
    processor_s: float
    wall_s: float
    size: int


class _AsOwner:
    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        scope.setdefault("state", {})["visitor"] = _OWNER
        await self._app(scope, receive, send)


def pages_app(record: Record, folder: Path) -> FastAPI:
    """Make the application with an owner before it instead of the doorkeeper, so that asking writes nothing."""
    app = build_app(read_settings(folder, {}), record)
    app.user_middleware = [each for each in app.user_middleware if cast(Any, each.cls) is not Doorkeeper]
    app.add_middleware(_AsOwner)
    return app


def page_times(app: FastAPI, pages: dict[str, str], rounds: int = _ROUNDS) -> dict[str, Taken]:
    """Ask each page some times in a row."""
    return {name: anyio.run(_timed, app, path, rounds) for name, path in pages.items()}


async def _timed(app: FastAPI, path: str, rounds: int) -> Taken:
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://localhost") as browser:
        taken = []
        for _ in range(rounds + 2):
            began, wall = process_time(), perf_counter()
            answer = await browser.get(path)
            taken.append((process_time() - began, perf_counter() - wall))
            assert answer.status_code == 200, (path, answer.status_code, answer.text[-300:])
            if taken[0][1] > 20:
                rounds = 1
            if len(taken) >= rounds + 2:
                break
    later = taken[2:] or taken
    size = len(answer.content)
    return Taken(taken[0][1], median(each[0] for each in later), median(each[1] for each in later), size)


def main(folders: list[str]) -> None:
    """Print the table for the measurements page."""
    for folder in map(Path, folders):
        began, wall = process_time(), perf_counter()
        with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
            app = pages_app(record, folder)
            print(f"\n{folder}: opened in {perf_counter() - wall:.1f} s ({process_time() - began:.1f} s)", flush=True)
            for name, path in PAGES.items():
                for taken in page_times(app, {name: path}).values():
                    print(f"{name:28} first {1e3 * taken.first_s:9.0f} ms, then {1e3 * taken.processor_s:8.1f} ms cpu "
                          f"{1e3 * taken.wall_s:8.1f} ms wall, {taken.size:9,} bytes", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
