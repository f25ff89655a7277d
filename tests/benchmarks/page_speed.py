"""How long the owner's and the lead's pages take in a big record, beside what they take in a small one.

    python -m tests.benchmarks.page_speed /tmp/small /tmp/big
    python -m tests.benchmarks.page_speed --more /tmp/copy_of_small /tmp/copy_of_big

Each folder was made by `big_record`. All are open at once, and each page of the same frame is asked of them in turns,
so that what else the machine does meets each alike; a page is timed in process from the request to the last byte,
without a network, processor time, after the first rounds. A row tells how many times as long the last folder took as
the first: the middle of what each round tells by itself, and what the two middles tell. With `--more` each is asked
again right after one more pass was taken, and after one more decision was told; this writes. As at the start of the
service, what every page rests on is read ahead.
"""

import argparse
import json
import sqlite3
import sys
from contextlib import AsyncExitStack, ExitStack, closing
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
_ROUNDS, _BEFORE, _ROUNDS_OF_MORE = 21, 2, 7


class Opened(NamedTuple):
    """A record whose pages are asked, and how it is told one more line."""

    app: FastAPI
    more: "OneMore"


class Taken(NamedTuple):
    """What a page took in one record: the first time [s of processor time, and by the clock], then each time [s of
    processor time]; its bytes."""

    first_s: tuple[float, float]
    later_s: list[float]
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


def opened(folder: Path, open_ones: ExitStack) -> Opened:
    """Open the record of a folder and read ahead what its pages rest on."""
    began, wall = process_time(), perf_counter()
    record = open_ones.enter_context(closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)))
    warm(record)
    took = f"{perf_counter() - wall:.1f} s, {process_time() - began:.1f} s of processor time"
    print(f"{folder}: read ahead in {took}", flush=True)
    return Opened(pages_app(record, folder), OneMore(record, folder / "record.sqlite3"))


async def in_turns(every: list[Opened], path: str, rounds: int, line: str = "") -> list[Taken]:
    """Ask a page of each record in turns, each time right after one more line where one is named."""
    asked: list[list[tuple[tuple[float, float], int]]] = [[] for _ in every]
    async with AsyncExitStack() as open_ones:
        browsers = [await open_ones.enter_async_context(_browser(each.app)) for each in every]
        for _ in range(rounds):
            for each, browser, of in zip(every, browsers, asked, strict=True):
                if line:
                    getattr(each.more, line)()
                of.append(await _once(browser, path))
    before = 0 if line else _BEFORE
    return [Taken(of[0][0], [processor_s for (processor_s, _), _ in of[before:]], of[-1][1]) for of in asked]


async def _once(browser: httpx.AsyncClient, path: str) -> tuple[tuple[float, float], int]:
    began, wall = process_time(), perf_counter()
    answer = await browser.get(path)
    taken = (process_time() - began, perf_counter() - wall), len(answer.content)
    assert answer.status_code == 200, (path, answer.status_code, answer.text[-300:])
    return taken


def _browser(app: FastAPI) -> httpx.AsyncClient:
    return httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://localhost")


def row_of(name: str, every: list[Opened], rounds: int, *, more: bool) -> str:
    """Ask one page of each record and tell it as a row of the table."""
    at_rest = anyio.run(in_turns, every, PAGES[name], rounds + _BEFORE)
    sizes, first = (", ".join(map(told, at_rest)) for told in (_kb, _first_ms))
    cells = [f"{name} ({sizes})", *_cells(at_rest), first]
    for line in ("taken", "told") if more else ():
        cells += _cells(anyio.run(in_turns, every, PAGES[name], _ROUNDS_OF_MORE, line))
    return f"| {' | '.join(cells)} |"


def _cells(taken: list[Taken]) -> list[str]:
    """The middle in each record, and how many times as long it takes in the last as in the first, twice."""
    first, last = taken[0].later_s, taken[-1].later_s
    by_round = median(its / mine for mine, its in zip(first, last, strict=True))
    times = by_round, median(last) / median(first)
    return [f"{1e3 * median(each.later_s):.1f}" for each in taken] + [f"{each:.2f}" for each in times]


def _kb(taken: Taken) -> str:
    return f"{taken.size / 1e3:.0f}"


def _first_ms(taken: Taken) -> str:
    return " by the clock ".join(f"{1e3 * each:.0f}" for each in taken.first_s)


def _head(folders: list[Path], *, more: bool) -> str:
    each = [*(f"{folder.name} [ms]" for folder in folders), "times", "of the middles"]
    after = [f"after a {line}: {head}" for line in ("pass", "decision") for head in each] if more else []
    heads = ["page (kB)", *each, "first [ms]", *after]
    return f"| {' | '.join(heads)} |\n|---|{'---:|' * (len(heads) - 1)}"


def main(asked: list[str]) -> None:
    """Print the table for the measurements page."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folders", type=Path, nargs="+")
    options.add_argument("--more", action="store_true", help="ask each page after one more line too: this writes")
    options.add_argument("--page", action="append", choices=PAGES, help="only this page")
    options.add_argument("--rounds", type=int, default=_ROUNDS, help="how often each page is asked of each record")
    told = options.parse_args(asked)
    with ExitStack() as open_ones:
        every = [opened(each, open_ones) for each in told.folders]
        print(_head(told.folders, more=told.more), flush=True)
        for name in told.page or PAGES:
            print(row_of(name, every, told.rounds, more=told.more), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
