"""No page walks through all lines of the record: each statement it asks finds what it wants by an index."""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing

import pytest

from server.record.tables.sealed import LineRow
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, send

_WALKS = re.compile(r"SCAN (line|subject_link|verdict|finding)\b")
_WALKS_FOR_AN_END = re.compile(r"SEARCH (line|subject_link|verdict|finding)$")
"""The lowest or highest of some, looked for without an index; of all it is found at the end."""
_WALKS_BY_NUMBER = re.compile(r"SEARCH (line|verdict|finding)\b.*\(rowid<\?\)")
PAGES = ("/history", "/history?serial=S", "/history/SW-1", "/history/SW-1/A", "/claims", "/open-on-shipped", "/desk",
         "/tablets", "/api/bench/N")  # fmt: skip


def walks(file: str, statements: list[str]) -> list[str]:
    """Give the steps of the statements' plans that go through a whole table."""
    with closing(sqlite3.connect(file)) as asked:
        steps = [
            (each, row[3])
            for each in statements
            # The last line of all is found from the end.
            if "LIMIT" not in each
            for row in asked.execute(f"EXPLAIN QUERY PLAN {each}", [None] * each.count("?"))
        ]
    return [
        step
        for asked, step in steps
        if _WALKS.search(step)
        or _WALKS_BY_NUMBER.search(step)
        or ("WHERE" in asked and _WALKS_FOR_AN_END.search(step))
    ]


@pytest.fixture(scope="module")
def shop_app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    """The story's shop with passes of two tablets, so that its frame has clocks to tell."""
    made = ShopApp(tmp_path_factory.mktemp("plans"))
    for tablet, clock in (("SLATE", "1:00"), ("CHALK", "1:05")):
        send(made.record, a_pass(Tablet(tablet), clock))
    yield made
    made.record.close()


@pytest.mark.parametrize("path", PAGES)
def test_a_page_asks_by_index(shop_app: ShopApp, path: str):
    """Asked a second time, no statement behind a page goes through a table whose rows grow with the shop's years."""
    shop_app.get(path, "OWN")
    with shop_app.record.counting() as asked:
        assert shop_app.get(path, "OWN").status_code == 200
    assert len(asked) > 3
    assert walks(_file(shop_app), asked) == []


def test_what_mends_several_frames_entries_is_found_by_what_it_mends(shop_app: ShopApp):
    """Asked for many frames at once, corrections are looked up by the entry they name, not among all of no frame."""
    with shop_app.record.counting() as asked, shop_app.record.reads() as reads:
        reads.frames_entries([f"SW-{number}" for number in range(8)])
    [statement] = [each for each in asked if "UNION ALL" in each]
    with closing(sqlite3.connect(_file(shop_app))) as plain:
        plan = plain.execute(f"EXPLAIN QUERY PLAN {statement}", [None] * statement.count("?")).fetchall()
    assert any("ix_line_of" in row[3] for row in plan), plan


def test_a_walk_is_seen(shop_app: ShopApp):
    """Control: what no index answers, what only bounds the position, and the highest of some are seen as walks."""
    table = LineRow.__tablename__
    wheres = ("body FROM {} WHERE device = ?", "body FROM {} WHERE position <= ?", "max(seq) FROM {} WHERE device = ?")
    assert len(walks(_file(shop_app), [f"SELECT {each.format(table)}" for each in wheres])) == 3


def _file(shop_app: ShopApp) -> str:
    return str(shop_app.record._engines.reading.url.database)
