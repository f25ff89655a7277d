"""The most memory this process and all it started held at once, looked at twice a second (Linux)."""

import os
from pathlib import Path
from threading import Event, Thread

_LOOK_EVERY_S = 0.5


class MemoryWatch:
    """Watches while a block runs; pages that several processes share are counted in parts that make one [MB]."""

    def __init__(self) -> None:
        self.most_mb = 0.0
        self._ended = Event()
        self._watching = Thread(target=self._watch, daemon=True)

    def __enter__(self) -> "MemoryWatch":
        self._watching.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        self._watching.join()

    def _watch(self) -> None:
        while True:
            self.most_mb = max(self.most_mb, held_mb())
            if self._ended.wait(_LOOK_EVERY_S):
                return


def held_mb() -> float:
    """Give what this process and all it started, and all these started, hold now [MB]."""
    started: dict[int, list[int]] = {}
    for process in Path("/proc").iterdir():
        if process.name.isdigit() and (parent := _parent(process)) is not None:
            started.setdefault(parent, []).append(int(process.name))
    found, held_kb = [os.getpid()], 0
    while found:
        one = found.pop()
        found += started.get(one, [])
        held_kb += _held_kb(Path(f"/proc/{one}"))
    return held_kb / 1024


def _parent(process: Path) -> int | None:
    try:
        return int((process / "stat").read_text().rpartition(")")[2].split()[1])
    except OSError:
        return None


def _held_kb(process: Path) -> int:
    """A process that has just ended holds nothing."""
    try:
        lines = (process / "smaps_rollup").read_text().splitlines()
    except OSError:
        return 0
    return sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
