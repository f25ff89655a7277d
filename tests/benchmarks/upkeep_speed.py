"""What the owner's commands and exports take in a big record, beside what they take in a small one.

    python -m tests.benchmarks.upkeep_speed /tmp/small /tmp/big --of check-record --of lists

Each folder was made by `big_record`. A command runs in a process of its own, by itself, and is told with its processor
time, the clock, how much memory it held at most, and its processor time for one line of the record; `bare` reads every
row and hashes what is sealed, with nothing but SQLite and SHA-256. Lists, a frame's dossier and the start are asked in
one process each, after the record was opened. A backup stays on the shelf.
"""

import argparse
import os
import resource
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from time import perf_counter, process_time, sleep

import anyio
import httpx
from fastapi import FastAPI

from server.pages.lists.lists import LISTS
from server.record.book_of_lines import Record
from server.work.warming import warm
from tests.benchmarks.page_speed import FRAME, pages_app

COMMANDS = ("check-record", "backup", "drill", "doctor", "migrate")
_RUN = "import sys; from server.commands.{} import run; sys.exit(run(sys.argv[1:]))"
_DOSSIER = {f"a frame's dossier, {kind}": f"/history/{FRAME}/dossier.{kind}" for kind in ("json", "csv", "pdf")}
_OF_ALL_PASSES = ("cylinders", "suspects")
_KIB_TO_MB = 1024 / 1e6


def bare(folder: Path) -> None:
    """Read all rows and hash what is sealed of each."""
    began = process_time()
    with closing(sqlite3.connect(folder / "record.sqlite3")) as told:
        for (envelope,) in told.execute("SELECT envelope FROM line ORDER BY position"):
            sha256(envelope).digest()
    print(f"read and hashed in {process_time() - began:.2f} s of processor time")


def start(folder: Path) -> None:
    """Open the record as the service does, and read ahead what its pages rest on."""
    began = process_time()
    with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
        print(f"opened after {process_time() - began:.2f} s of processor time")
        warm(record)
        print(f"read ahead after {process_time() - began:.2f} s of processor time")


def lists(folder: Path) -> None:
    """Ask every list, each the first time and once more, with nothing read ahead; last those of all passes."""
    last = sorted(LISTS, key=lambda each: each in _OF_ALL_PASSES)
    with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
        anyio.run(_asked, pages_app(record, folder), {each: f"/lists/{each}.csv" for each in last})


def dossier(folder: Path) -> None:
    """Ask one frame's dossier of a record just opened, with nothing read ahead."""
    with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
        anyio.run(_asked, pages_app(record, folder), _DOSSIER)


ALONE = {each.__name__: each for each in (bare, start, dossier, lists)}


async def _asked(app: FastAPI, paths: dict[str, str]) -> None:
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://localhost") as browser:
        for name, path in paths.items():
            took = []
            for _ in range(2):
                began = process_time()
                answer = await browser.get(path, timeout=None)
                took.append(f"{1e3 * (process_time() - began):.0f}")
            rows = answer.text.count("\r\n") if path.endswith("csv") else 0
            held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * _KIB_TO_MB
            print(f"| {name} | {answer.status_code} | {len(answer.content) / 1e3:.0f} kB, {rows} rows "
                  f"| {', then '.join(took)} ms | {held:.0f} MB held by now |", flush=True)  # fmt: skip


def _lines(folder: Path) -> int:
    with closing(sqlite3.connect(folder / "record.sqlite3")) as told:
        return int(told.execute("SELECT max(position) FROM line").fetchone()[0])


def _rows(name: str, folders: list[Path]) -> Iterator[str]:
    for folder in folders:
        alone = [sys.executable, "-m", "tests.benchmarks.upkeep_speed", str(folder), "--alone", name]
        typed = [sys.executable, "-c", _RUN.format(name.replace("-", "_")), "--data", str(folder)]
        began = perf_counter()
        process = subprocess.Popen(alone if name in ALONE else typed)
        held_mb, status, used = _looked_at(process.pid)
        took, wall, lines = used.ru_utime + used.ru_stime, perf_counter() - began, _lines(folder)
        yield (f"| {name} | {folder.name}, {lines:,} lines | {os.waitstatus_to_exitcode(status)} | {took:.1f} "
               f"| {wall:.0f} | {held_mb:.0f} | {1e6 * took / lines:.1f} |")  # fmt: skip


def _looked_at(process: int) -> tuple[float, int, resource.struct_rusage]:
    """Wait for its end, looking at the most it held; what the system tells afterwards is what this process held."""
    held_mb = 0.0
    while True:
        told = dict(each.split(":", 1) for each in Path(f"/proc/{process}/status").read_text().splitlines())
        held_mb = max(held_mb, int(told.get("VmHWM", "0 kB").split()[0]) * _KIB_TO_MB)
        ended, status, used = os.wait4(process, os.WNOHANG)
        if ended:
            return held_mb, status, used
        sleep(0.05)


def main(asked: list[str]) -> None:
    """Print the table for the measurements page."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("folders", type=Path, nargs="+")
    options.add_argument("--of", action="append", choices=[*ALONE, *COMMANDS], help="only these")
    options.add_argument("--alone", choices=ALONE, help="do one here, in this process")
    told = options.parse_args(asked)
    if told.alone:
        ALONE[told.alone](told.folders[0])
        return
    print("| what | record | exit | processor time [s] | clock [s] | most held [MB] | a line [µs] |", flush=True)
    print(f"|---|---|{'---:|' * 5}", flush=True)
    for name in told.of or (*ALONE, *COMMANDS):
        for row in _rows(name, told.folders):
            print(row, flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
