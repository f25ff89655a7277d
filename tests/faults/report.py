"""Writes what the long runs found into docs/measurements.md, each its own row between two marks, and runs them.

`python -m tests.faults.report power` runs one in full; `--count` says how often, `--minutes` for how long at most.
"""

import argparse
import os
import platform
import sqlite3
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

PAGE = Path(__file__).resolve().parents[2] / "docs" / "measurements.md"
BEGIN, END = "<!-- rows of the long runs: written by them -->", "<!-- end of the rows -->"
_HEAD = ("| run | found | control beside it | how to run it | machine and day |", "|---|---|---|---|---|")


class Row(NamedTuple):
    """What one long run found: a name, the figure, what its control found, and the command to run it again."""

    run: str
    found: str
    control: str
    command: str


def keep(row: Row, page: Path = PAGE) -> None:
    """Put the row in place of the one this run wrote before, and leave all else on the page as it is."""
    before, _, rest = page.read_text(encoding="utf-8").partition(BEGIN)
    between, mark, after = rest.partition(END)
    assert mark, f"{page.name} lacks the marks between which the rows stand"
    rows = {line.split("|")[1].strip(): line for line in between.splitlines() if line.startswith("| ")}
    rows.pop("run", None)
    rows[row.run] = f"| {row.run} | {row.found} | {row.control} | `{row.command}` | {machine()} |"
    text = "\n".join((*_HEAD, *rows.values()))
    page.write_text(f"{before}{BEGIN}\n{text}\n{END}{after}", encoding="utf-8")


def none_of(count: int, what: str) -> str:
    """Say that it never happened, with how often it may happen all the same: three in so many, at 95 % confidence."""
    return f"0 {what} in {count:,} (so fewer than {100 * 3 / count:.2g} %, at 95 % confidence)"


def machine() -> str:
    """Say what it ran on, without naming it."""
    kind = f"{os.cpu_count()} cores, {platform.system()} {platform.machine()}"
    versions = f"CPython {platform.python_version()}, SQLite {sqlite3.sqlite_version}"
    return f"{kind}, {versions}, load {os.getloadavg()[0]:.0f}, {datetime.now(UTC):%Y-%m-%d}"


def main(arguments: list[str]) -> int:
    """Run one of the long runs, keep its row, and show it."""
    from tests.faults.long_runs import RUNS

    parser = argparse.ArgumentParser(prog="python -m tests.faults.report", description=__doc__)
    parser.add_argument("run", choices=RUNS)
    parser.add_argument("--count", type=int, help="how often; left out, as often as the full run asks")
    parser.add_argument("--minutes", type=float, default=24 * 60, help="begin nothing further after so long")
    asked = parser.parse_args(arguments)
    run, full = RUNS[asked.run]
    row = run(asked.count or full, asked.minutes)
    keep(row)
    print(row.run, row.found, row.control, sep="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
