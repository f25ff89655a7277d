"""How long the owner's and the lead's pages take in a big record, and the record's reads beside hand-written SQL.

    python -m tests.benchmarks.page_speed /tmp/small /tmp/big
    python -m tests.benchmarks.page_speed --more /tmp/copy_of_small /tmp/copy_of_big

Each folder was made by `big_record`. The same pages of the same frame are asked in each, in one run; a page is timed in
process from the request to the last byte, without a network, the median of some rounds after the first ones. With
`--more` each is asked again right after one more pass was taken, and after one more decision was told; this writes.
As at the start of the service, what every page rests on is read ahead.
"""

import argparse
import json
import sqlite3
import sys
from collections.abc import Callable
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
from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.settings import read_settings
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from server.work.telling import told_line
from server.work.warming import warm

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
    "tablets": "/tablets",
    "a bench's sheet": "/api/bench/B1",
    "cause table": f"/history/{FRAME}/{JOINT}/causes",
    "what else, by cylinder": "/what-else?kind=cylinder&id=AR-0317",
    "what else, by fill lot": "/what-else?kind=fill+lot&id=FL-25-0523",
    "what else, by sleeve": "/what-else?kind=sleeve&id=FT-0159",
    "what else, by filler lot": "/what-else?kind=filler+lot&id=F2-D01",
    "what else, by tube heat": "/what-else?kind=tube+heat&id=H32-106",
    "what else, by welder": "/what-else?kind=welder&id=W01",
    "what else, by bench": "/what-else?kind=bench&id=B2",
    "what else, by line": "/what-else?kind=line&id=B2-P",
    "what else, by instrument": "/what-else?kind=instrument&id=N1-PA-2",
    "what else, by revision": "/what-else?kind=revision&id=T1+rev+C",
    "what else, by week": "/what-else?kind=week&id=2025-W12",
    "what else, by fixture": "/what-else?kind=fixture&id=FX-2",
    "what else, welder and week": "/what-else?kind=welder&id=W01&kind=week&id=2025-W12",
    "what else, welder and revision": "/what-else?kind=welder&id=W01&kind=revision&id=T1+rev+C",
    "what else, cylinder and welder": "/what-else?kind=cylinder&id=AR-0317&kind=welder&id=W01",
    "what else, welder, two months": "/what-else?kind=welder&id=W01&since=2025-03-10&until=2025-05-10",
    "what else, later frames": "/what-else?kind=welder&id=W01&place=shipped&part=3",
    "suspect sets": "/suspect-sets",
    "suspect sets, holding": "/suspect-sets?holding=yes",
    "one suspect set": "/suspect-sets/TAB-A:50c7:654",
    "joint life": "/joint-life",
}
_OWNER = Visitor("O01", "Owner", "owner", ("owner", "quality lead"), "TAB-A")
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


def times_after_more(app: FastAPI, path: str, more: Callable[[], None], rounds: int = 3) -> Taken:
    """Ask a page some times, each time right after one more line; the first of them has not read anything anew yet."""
    taken = []
    for _ in range(rounds):
        more()
        taken.append(anyio.run(_timed, app, path, 1, 0))
    processor_s, wall_s = (median(each[at] for each in taken) for at in (1, 2))
    return Taken(taken[0].first_s, processor_s, wall_s, taken[-1].size)


class OneMore:
    """Lines as the service gets them, each under a name of its own: a tablet's pass, a decision from the desk."""

    def __init__(self, record: Record, file: Path) -> None:
        self._record = record
        with closing(sqlite3.connect(file)) as told:
            newest = "SELECT body FROM line WHERE {} ORDER BY position DESC LIMIT 1"
            asked = ("entry_kind = 'pass' AND state = 'taken'", "kind = 'decision'")
            self._pass, self._decision = (json.loads(told.execute(newest.format(each)).fetchone()[0]) for each in asked)

    def taken(self) -> None:
        """Take one more pass on the frame that was welded last."""
        position, at_ms = self._last() + 1, now_ms()
        one = self._pass | {"id": f"MORE:{position}", "device": "MORE", "boot": "more", "seq": position}
        take_deliveries(self._record, [from_request(one, "sent", at_ms)]).result()

    def told(self) -> None:
        """Tell the last decision once more."""
        line = told_line(self._decision | {"id": f"D-more-{self._last() + 1}"}, now_ms())
        self._record.write(lambda _: Written(answer=lambda _: None, lines=(line,))).result()

    def _last(self) -> int:
        with self._record.reads() as reads:
            return reads.last_position()


async def _timed(app: FastAPI, path: str, rounds: int, before: int = 2) -> Taken:
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://localhost") as browser:
        taken = []
        for _ in range(rounds + before):
            began, wall = process_time(), perf_counter()
            answer = await browser.get(path)
            taken.append((process_time() - began, perf_counter() - wall))
            assert answer.status_code == 200, (path, answer.status_code, answer.text[-300:])
            if taken[0][1] > 20:
                rounds = 1
            if len(taken) >= rounds + before:
                break
    later = taken[before:] or taken
    size = len(answer.content)
    return Taken(taken[0][1], median(each[0] for each in later), median(each[1] for each in later), size)


def main(asked: list[str]) -> None:
    """Print the table for the measurements page."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folders", type=Path, nargs="+")
    options.add_argument("--more", action="store_true", help="ask each page after one more line too: this writes")
    options.add_argument("--page", action="append", choices=PAGES, help="only this page")
    told = options.parse_args(asked)
    pages = {name: PAGES[name] for name in told.page or PAGES}
    for folder in told.folders:
        began, wall = process_time(), perf_counter()
        with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
            app = pages_app(record, folder)
            warm(record)
            took = f"{perf_counter() - wall:.1f} s, {process_time() - began:.1f} s of processor time"
            print(f"\n{folder}: read ahead in {took}", flush=True)
            more = OneMore(record, folder / "record.sqlite3") if told.more else None
            for name, path in pages.items():
                print(f"{name:28} {_told(app, path, more)}", flush=True)


def _told(app: FastAPI, path: str, more: OneMore | None) -> str:
    taken = anyio.run(_timed, app, path, _ROUNDS)
    told = (f"first {1e3 * taken.first_s:9.0f} ms, then {1e3 * taken.processor_s:8.1f} ms cpu "
            f"{1e3 * taken.wall_s:8.1f} ms wall, {taken.size:9,} bytes")  # fmt: skip
    if more is not None:
        for named, one in (("pass", more.taken), ("decision", more.told)):
            told += f"; after a {named} {1e3 * times_after_more(app, path, one).processor_s:8.1f} ms cpu"
    return told


if __name__ == "__main__":
    main(sys.argv[1:])
