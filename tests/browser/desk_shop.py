"""A shop with something on every sheet of the desk, served, and a lead signed in to it in a browser."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page

from server.occasions.days import Days
from server.record.book_of_lines import Record, now_ms
from server.record.files import Files
from server.work.attach_trace import TraceAsked, attach_trace
from server.work.audit_week import week_of
from server.work.draw_sample import draw_sample, seal_after
from server.work.judge_new import judge_new
from server.work.set_pin import set_pin
from tests.browser.chromium import PATIENCE_MS
from tests.browser.serving import free_port, served
from tests.story.log import Tablet
from tests.story.works import PINS
from tests.work import recordings
from tests.work.last_weeks import OVER, weld_clean
from tests.work.small_shop import a_pass, open_shop, send, tell

DESK = (1440, 900)
SIGNED = {"at": "2030-01-01T00:00:00.000Z", "meaning": "given", "shown_sha256": "0" * 64}


@contextmanager
def desk_shop(folder: Path) -> Iterator[tuple[Record, str]]:
    """Serve a shop with findings, a failed bead and its set, papers, charts and a drawn week."""
    record = open_shop(folder)
    for person, pin in PINS.items():
        set_pin(record, person, pin, now_ms())
    _fill(record)
    recording = TraceAsked("PAD:b1:1", "PW", recordings.text(), "LEA", "quality lead")
    attach_trace(record, Files(folder), recording, now_ms())
    try:
        with served(record, folder, free_port()) as address:
            yield record, address
    finally:
        record.close()


def at_the_desk(browser: Browser, address: str, size: tuple[int, int] = DESK) -> Page:
    """Open a browser in which the quality lead is signed in."""
    context = browser.new_context(viewport={"width": size[0], "height": size[1]})
    context.set_default_timeout(PATIENCE_MS)
    told: dict[str, str | float | bool] = {"person": "LEA", "secret": PINS["LEA"], "device": "desk"}
    assert context.request.post(f"{address}/sign-in", form=told).ok
    return context.new_page()


def drawn_week(record: Record) -> str:
    """Give the id of the draw."""
    with record.reads() as reads:
        return next(iter(reads.registers().sample_draws))


def _fill(record: Record) -> None:
    tell(record, kind="acceptance", id="audit", name="sample_audit", unit="joints", value="2", source="lead",
         valid_from="2020-01-01")  # fmt: skip
    weld_clean(record)
    judge_new(record)
    with record.reads() as reads:
        shop = reads.registers().shop
    week = week_of(int(OVER.timestamp() * 1000), Days(shop.zone if shop else "UTC"))
    seal_after(record, week)
    judge_new(record)
    record.write(lambda reads: draw_sample(reads, week, "LEA", now_ms())).result()
    judge_new(record)
    slate = Tablet("PAD")
    passes = [a_pass(slate, f"1:{10 + at}", "ABC"[at % 3], oxygen=str(8 + 200 * (at % 4 == 0))) for at in range(12)]
    send(record, *passes, slate.tell("5:00", "bead", line="N-P", result="failed"))
    both = [SIGNED | {"person": "LEA", "role": "quality lead"}, SIGNED | {"person": "OWN", "role": "owner"}]
    tell(record, kind="concession", id="CN-1", frames=["SW-1"], count=2, reason="so", signatures=both)
    tell(record, kind="nonconformity", id="NC-1", title="grey", held=["SW-1/A#1"])
    judge_new(record)
