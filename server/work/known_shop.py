"""Gathers what judging knows of the shop at one record position; kept, and carried on by the lines told since."""

import logging

from server.facts.registers import Registers
from server.occasions.build import Shop
from server.occasions.filed import NotFiled
from server.occasions.known import Known
from server.occasions.tables import Tables
from server.record.reading_stretches import Told
from server.record.reads import Reads

_LOG = logging.getLogger(__name__)
_LINES_AT_ONCE = 20_000


def known_shop(reads: Reads, known_at: int) -> Known:
    """Give what occasions rest on, apart from a frame's own entries; passes tell who came first on a line that day."""
    return Known(
        registers=reads.registers(known_at),
        shared=(*reads.shared_entries(known_at), *reads.mending(known_at)),
        clocks=reads.clock_pairs(known_at),
        passes=reads.passes(known_at),
        photos=reads.photos(known_at),
        known_at=known_at,
    )


def shop_now(reads: Reads) -> Shop:
    """Give the shop as known now; nobody changes anything in it."""
    return shop_at(reads, reads.last_position())


def shop_at(reads: Reads, position: int) -> Shop:
    """Give the shop as known at a position: the newest one made of an earlier state, carried on by the lines since."""

    def carry(before: Shop | None) -> Shop:
        registers = reads.registers(position)
        try:
            return _carried_on(reads, before, registers, position)
        except NotFiled:
            _LOG.exception("the shop could not be carried on to position %d and is made anew", position)
            return _carried_on(reads, None, registers, position)

    return reads.carried_on(position, carry)


def _carried_on(reads: Reads, before: Shop | None, registers: Registers, position: int) -> Shop:
    """Carry the tables on, stretch by stretch; the first of all stretches are told to a shop that knows nothing."""
    tables = before.tables if before and before.tables.registers.zone == registers.zone else None
    tables = tables or Tables(Known(registers), None)
    while tables.known_at < position:
        until = min(position, tables.known_at + _LINES_AT_ONCE)
        tables = _with_stretch(reads, tables, registers, until)
    return Shop(Known(registers, known_at=position), tables=tables)


def shop_with(reads: Reads, shop: Shop, registers: Registers) -> Shop:
    """Give the shop as it would be with other registers and no further entry."""
    tables = shop.tables
    settled = tables.settled(Known(registers))
    again = reads.told_again(settled.boots, settled.entries, tables.known_at)
    known = Known(registers, again.shared, (), again.passes, again.photos, known_at=tables.known_at)
    return Shop(known, tables=Tables(known, None, tables, settled))


def _with_stretch(reads: Reads, tables: Tables, registers: Registers, until: int) -> Tables:
    told = reads.told_between(tables.known_at, until)
    settled = tables.settled(_known(registers, told, until))
    again = reads.told_again(settled.boots, settled.entries, tables.known_at)
    return Tables(_known(registers, told, until, again), None, tables, settled)


def _known(registers: Registers, told: Told, until: int, again: Told | None = None) -> Known:
    before = again or Told([], [], [], [], [])
    shared, passes, photos = before.shared + told.shared, before.passes + told.passes, before.photos + told.photos
    return Known(registers, shared, told.clocks, passes, photos, told.returned, known_at=until)
