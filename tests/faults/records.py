"""Data folders with an empty record, made once and copied, since making one anew takes longer than most proofs."""

import shutil
from pathlib import Path
from tempfile import mkdtemp

from server.record.book_of_lines import Record
from tests.record.fixtures import url_of


def make_empty(folder: Path) -> Path:
    """Make a data folder with an empty record and its key."""
    folder.mkdir(parents=True)
    Record.open(url_of(folder / "record.sqlite3"), folder).close()
    return folder


def another(empty: Path) -> Path:
    """Give a new folder that is as the empty one."""
    folder = Path(mkdtemp(dir=empty.parent))
    shutil.copytree(empty, folder, dirs_exist_ok=True)
    return folder
