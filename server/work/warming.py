"""Reads at the start what every page rests on, so that the first visitor after it does not wait for that."""

import gc
import logging
import threading

from server.facts.frame_papers import last_decided, shipped_frames
from server.facts.frame_papers import read_ahead as papers_read_ahead
from server.record.book_of_lines import Record, now_ms
from server.record.reads import Reads
from server.record.troubles import RecordTrouble
from server.work.bench_sheet import read_ahead as bench_read_ahead
from server.work.claims_by_lot import claims_by_lot
from server.work.decided_before import read_ahead as decisions_read_ahead
from server.work.field_lives import field_lives
from server.work.known_shop import shop_at, shop_now
from server.work.serials import newest_first
from server.work.sets_in_short import sets_in_short
from server.work.short_matters import ShortMatters
from server.work.thing_index import thing_index
from server.work.uncollected import uncollected
from server.work.what_checks import checks_beside
from server.work.what_things import COUNTED

_LOG = logging.getLogger(__name__)


def warm(record: Record) -> None:
    """Read the registers, findings in short, what waits, the boots heard, the benches, the shop and its counts."""
    with uncollected(), record.reads(patient=True) as reads:
        registers = reads.registers()
        reads.findings_short()
        reads.boots_heard()
        papers_read_ahead(registers)
        last_decided(registers)
        shipped_frames(registers)
        newest_first(registers)
        ShortMatters(reads, registers).keeping()
        reads.at_benches()
        bench_read_ahead(reads, now_ms())
        # As it was judged, so that the judge goes on from there; what came since is little.
        shop_at(reads, reads.judged_to())
        tables = shop_now(reads).tables
        sets_in_short(tables)
        field_lives(tables)
        index = thing_index(tables)
        for kind in COUNTED:
            claims_by_lot(tables, index, kind)
        for welder in tables.uses.by_welder:
            checks_beside(tables, "welder", welder)
        decisions_read_ahead(reads)
        _newest_frame(reads)
        # What is known by now stays: going through all of it for rings of garbage would hold up a page now and then.
        gc.freeze()


def _newest_frame(reads: Reads) -> None:
    """Build the occasions of one frame: what is made of the registers for the first frame is there for all others."""
    shop, position = shop_now(reads), reads.last_position()
    newest = max(shop.tables.registers.packets.values(), key=lambda each: each.issued, default=None)
    if newest is not None:
        shop.frame(newest, reads.frame_entries(newest.frame, position))


def warm_beside(record: Record) -> threading.Thread:
    """Do it beside the service; a page asked for meanwhile waits for what it needs of it, as it would without."""

    def run() -> None:
        try:
            warm(record)
        except RecordTrouble as trouble:
            _LOG.warning("the record could not be read ahead: %s", trouble)

    thread = threading.Thread(target=run, name="warming", daemon=True)
    thread.start()
    return thread
