"""A whole shop folder loaded into a fresh record, and judged whole from its file, opened anew."""

from contextlib import closing
from pathlib import Path

from server.record.book_of_lines import Record, now_ms
from server.work.judging import judge_everything
from server.work.load_folder import load_folder
from server.work.shop_folder import read_shop_folder
from tests.record.fixtures import url_of


def load(file: Path, shop: Path) -> None:
    """Load a shop folder into a record whose file is not there yet."""
    with closing(Record.open(url_of(file))) as record:
        load_folder(record, read_shop_folder(shop), now_ms())


def judge(file: Path) -> None:
    """Judge everything in a record and keep what is said."""
    with closing(Record.open(url_of(file))) as record:
        judge_everything(record)
