"""The owner sees how the service is, what was last done, and what to do; on the page of serials in one line."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from server.record.book_of_lines import now_ms
from server.upkeep.backing_up import back_up, drill_newest
from server.upkeep.backup_log import BackupLog, keep_backup_log
from tests.pages.shop_app import ShopApp

DAY_MS = 86_400_000
PARTS = ("Record", "Room on the disk", "Clock", "Judging", "Certificate")
NAMED = (*PARTS, "Last checkpoint", "Last backup", "Last drill")


@pytest.fixture
def shop(shop_app: ShopApp) -> Iterator[ShopApp]:
    """The shop without any backup, and without one afterwards."""
    yield shop_app
    settings = shop_app.app.state.settings
    (settings.data_folder / ".backups.json").unlink(missing_ok=True)


def test_it_is_for_the_owner(shop: ShopApp):
    """The owner sees it, a welder is told whose it is."""
    assert shop.get("/upkeep", "OWN").status_code == 200
    assert shop.get("/upkeep", "WEL").status_code == 403


def test_everything_is_named_with_what_to_do(shop: ShopApp):
    """Every part, the last checkpoint, backup and drill have a line, and what is missing says what to do."""
    text = shop.get("/upkeep", "OWN").text
    assert [name for name in NAMED if f'<th scope="row">{name}</th>' not in text] == []
    assert "none was made yet" in text
    assert "strawline drill" in text


def test_in_postgresql_what_to_do_is_that_databases_own(shop: ShopApp):
    """No command is named that refuses there; a restored dump is checked, and continued before it is served."""
    watched = shop.app.state.watched
    elsewhere = replace(watched.settings, database="postgresql://shop/record")
    shop.app.state.watched = watched._replace(settings=elsewhere)
    try:
        text = shop.get("/upkeep", "OWN").text
    finally:
        shop.app.state.watched = watched
    assert [each for each in ("strawline backup", "strawline drill", "strawline restore") if each in text] == []
    assert [each for each in ("pg_dump", "strawline check-record", "strawline continue") if each not in text] == []


def test_a_backup_and_its_drill_are_told_with_their_age(shop: ShopApp):
    """After a backup that was proved the page says when, and the line on the page of serials how old it is."""
    settings = shop.app.state.settings
    back_up(settings, now_ms())
    drill_newest(settings, now_ms())
    text = shop.get("/upkeep", "OWN").text
    assert "none was made yet" not in text
    assert "was restored and recomputed" in text
    assert "The backup made within the last hour was restored and recomputed" in shop.get("/history", "OWN").text


def test_a_late_backup_stands_out_on_the_page_of_serials(shop: ShopApp):
    """Three days after the last good one the owner's first page says so in bold; nobody else is told."""
    made = now_ms() - 3 * DAY_MS
    log = BackupLog(made_ms=made, proved_made_ms=made, proved_ms=made, lines=5)
    keep_backup_log(shop.app.state.settings.data_folder, log)
    said = "The last backup proved good is 3 days old"
    assert said in shop.get("/history", "OWN").text.partition("<strong>To look at:")[2]
    assert said not in shop.get("/history", "WEL").text


def test_a_failed_backup_is_told_with_its_reason(shop: ShopApp):
    """What kept the last backup from being made stands on the page."""
    log = replace(BackupLog(), failed="no backup was made in /away: no such disk", tried_ms=now_ms())
    keep_backup_log(shop.app.state.settings.data_folder, log)
    assert "no such disk" in shop.get("/upkeep", "OWN").text


def test_a_clock_that_lags_the_record_is_told(shop: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """When the machine's clock stands before the last entry's arrival, the page says by how much and what to do."""
    monkeypatch.setattr("server.upkeep.clock_state.time.time", lambda: now_ms() / 1000 - 3600)
    text = shop.get("/upkeep", "OWN").text
    assert "behind the last entry" in text
    assert "set it right" in text
