"""How long from a line taken to what the judge says of it, in a big record; made by `big_record`, and written to.

    python -m tests.benchmarks.delivery_speed /tmp/copy_of_small /tmp/copy_of_big

A line is a pass from a tablet, or a decision from the desk. First the verdicts of the frames it touches are kept, then
those of what frames share. The first line of a day has all that frames share judged; it is told apart.
"""

import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from server.record.book_of_lines import Record
from server.work import judge_new as judging
from server.work.judge_new import judge_new
from server.work.judging import judge_frames
from server.work.shared_level import SharedLevel
from server.work.warming import warm
from tests.benchmarks.page_speed import OneMore

_ROUNDS = 5


class _Watched:
    """Notes when the frames of a line were judged."""

    def __init__(self) -> None:
        self.at = 0.0

    def judge_frames(self, *asked: object, **further: object) -> object:
        """Judge them, and note it."""
        judged = judge_frames(*asked, **further)  # type: ignore[arg-type]
        self.at = perf_counter()
        return judged


def main(folders: list[str]) -> None:
    """Print a row for each folder and kind of line."""
    watched = _Watched()
    setattr(judging, "judge_frames", watched.judge_frames)  # noqa: B010
    for folder in map(Path, folders):
        with closing(Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)) as record:
            warm(record)
            more, level = OneMore(record, folder / "record.sqlite3"), SharedLevel()
            _row(folder, "first of a day", *_timed(record, more.taken, level, watched))
            for named, one in (("a pass", more.taken), ("a decision", more.told)):
                taken = [_timed(record, one, level, watched) for _ in range(_ROUNDS)]
                _row(folder, named, *(median(each) for each in zip(*taken, strict=True)))


def _timed(
    record: Record, one: Callable[[], None], level: SharedLevel, watched: _Watched
) -> tuple[float, float, float]:
    """Give how long until the frames' verdicts were kept, until all were [s, wall], and processor time [s]."""
    began, wall = process_time(), perf_counter()
    one()
    while judge_new(record, level=level):
        pass
    return watched.at - wall, perf_counter() - wall, process_time() - began


def _row(folder: Path, named: str, frames_s: float, all_s: float, processor_s: float) -> None:
    print(f"{folder.name:12} {named:16} frames {1e3 * frames_s:8.0f} ms, all {1e3 * all_s:8.0f} ms, "
          f"{1e3 * processor_s:8.0f} ms of processor time", flush=True)  # fmt: skip


if __name__ == "__main__":
    main(sys.argv[1:])
