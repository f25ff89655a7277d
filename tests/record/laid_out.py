"""Data folders that are made once and copied, since making one takes longer than most proofs."""

import atexit
import shutil
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

from server.record.book_of_lines import Record
from tests.record.fixtures import url_of


def open_laid_out(folder: Path, fill: Callable[[Record, Path], object]) -> Record:
    """Lay out a data folder that is as a new one into which `fill` has put what it does, and open its record.

    Its key, its salts and the checkpoint it was closed with are those of every other copy: who needs two shops that are
    strangers makes the second one anew.
    """
    shutil.copytree(_made(fill), folder, dirs_exist_ok=True)
    return Record.open(url_of(folder / "record.sqlite3"), folder)


@lru_cache
def _made(fill: Callable[[Record, Path], object]) -> Path:
    folder = Path(mkdtemp(prefix="laid-out-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    record = Record.open(url_of(folder / "record.sqlite3"), folder)
    fill(record, folder)
    record.close()
    return folder
