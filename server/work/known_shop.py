"""Gathers what judging knows of the shop at one record position, in a fixed number of questions."""

from server.occasions.build import Shop
from server.occasions.known import Known
from server.record.reads import Reads


def known_shop(reads: Reads, known_at: int) -> Known:
    """Give what occasions rest on, apart from a frame's own entries; passes tell who came first on a line that day."""
    return Known(
        registers=reads.registers(known_at),
        shared=(*reads.shared_entries(known_at), *reads.mending(known_at)),
        clocks=reads.clock_pairs(known_at),
        passes=reads.passes(known_at),
        photos=reads.photos(known_at),
    )


def shop_now(reads: Reads) -> Shop:
    """Give the shop as known now, made once for as long as nothing more is told; nobody changes anything in it."""
    return reads.made_once("shop", lambda: Shop(known_shop(reads, reads.last_position())))
