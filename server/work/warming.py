"""Reads at the start what every page rests on, so that the first visitor after it does not wait for that."""

import logging
import threading

from server.facts.frame_papers import last_decided, shipped_frames
from server.record.book_of_lines import Record
from server.record.troubles import RecordTrouble

_LOG = logging.getLogger(__name__)


def warm(record: Record) -> None:
    """Read the registers, the findings in short and the boots heard; they are carried on from then on."""
    with record.reads(patient=True) as reads:
        registers = reads.registers()
        reads.findings_short()
        reads.boots_heard()
    last_decided(registers)
    shipped_frames(registers)


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
