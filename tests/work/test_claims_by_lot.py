"""Claims are counted by what the claimed joints used, against all others that left the house, exactly and with q."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.work.claims import ClaimTold, open_claim
from server.work.what_else import what_else
from server.work.what_things import Kind, Thing
from tests.story.log import LINES, Tablet
from tests.work.small_shop import a_pass, open_shop, send, tell


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    """Joints A and B filled from one sleeve, C from another, all shipped."""
    made = open_shop(tmp_path)
    tablet = Tablet("SLATE")
    for hour, (joint, sleeve) in enumerate((("A", "S-1"), ("B", "S-1"), ("C", "S-2")), 1):
        send(made, a_pass(tablet, f"{hour}:10", joint, run="fill", sleeve=sleeve))
    tell(made, kind="shipment", id="S-1", frame="SW-1", customer="CU-1", at=show_moment(now_ms() - 60_000))
    yield made
    made.close()


def claim(shop: Record, joint: str) -> None:
    told = ClaimTold("SW-1", joint, "", "CU-1", now_ms() - 1000, now_ms() - 500, "it creaks", "OWN")
    shop.write(lambda reads: open_claim(reads, told, now_ms())).result()


def counted(shop: Record, kind: Kind, name: str) -> dict[str, tuple[int, int]]:
    with shop.reads() as reads:
        found = what_else(reads, [Thing(kind, name)]).by_lot
    assert found
    return {row.level: (row.faults, row.seen) for row in found.rows}


def test_a_claim_counts_for_the_sleeve_of_the_joint_it_names(shop: Record):
    """C is claimed: one of one with its sleeve, none of two with the other; the exact chance of that is a third."""
    claim(shop, "C")
    assert counted(shop, "sleeve", "S-2") == {"S-2": (1, 1), "S-1": (0, 2)}
    with shop.reads() as reads:
        found = what_else(reads, [Thing("sleeve", "S-2")]).by_lot
    assert found
    assert found.rows[0].p == pytest.approx(1 / 3 - 1 / 6)
    assert found.rows[0].q == pytest.approx(2 * found.rows[0].p)


def test_what_cannot_be_counted_is_named(shop: Record):
    """A claim that names no joint is left out and said; a line is no lot and is not counted."""
    claim(shop, "")
    with shop.reads() as reads:
        found = what_else(reads, [Thing("sleeve", "S-1")]).by_lot
        assert what_else(reads, [Thing("line", LINES["purge_line"])]).by_lot is None
    assert found
    assert found.claims == 0
    assert [why for _, why in found.left_out] == ["it names no joint"]
