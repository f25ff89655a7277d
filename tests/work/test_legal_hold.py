"""A legal hold stands from its signed line until another lifts it, and says so wherever the frame is told."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.legal_hold import HoldAsked, HoldRefused, frames_on_hold, hold, holds_on, standing_hold
from server.work.signature import Signing
from tests.work.small_shop import LEAD, OWNER, open_shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def sign(shop: Record, act: str, frame: str = "SW-1", reason: str = "counsel asked", by: Signing = OWNER) -> str:
    asked = HoldAsked(frame, act, reason, (by,))
    return shop.write(lambda reads: hold(reads, asked, now_ms())).result()


def test_a_hold_stands_until_it_is_lifted(shop: Record):
    """Placed, it stands with its signature; lifted, none stands and both lines stay; placed again, it stands again."""
    number = sign(shop, "placed")
    with shop.reads() as reads:
        found = standing_hold(reads.registers(), "SW-1")
    assert found
    assert (found.id, found.signatures[0].role, len(found.signatures[0].shown_sha256)) == (number, "owner", 64)
    sign(shop, "lifted")
    with shop.reads() as reads:
        assert frames_on_hold(reads.registers()) == {}
        assert [each.act for each in holds_on(reads.registers(), "SW-1")] == ["placed", "lifted"]
    sign(shop, "placed")
    with shop.reads() as reads:
        assert set(frames_on_hold(reads.registers())) == {"SW-1"}


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"act": "placed", "frame": "SW-9"}, "frame: 'SW-9' is no serial"),
        ({"act": "forgotten"}, "act: 'forgotten'"),
        ({"act": "lifted"}, "SW-1 is under no hold"),
        ({"act": "placed", "reason": " "}, "reason: too short"),
        ({"act": "placed", "by": LEAD}, "placed and lifted by an owner"),
    ],
)
def test_what_is_wrong_is_named(shop: Record, asked: dict[str, object], said: str):
    """A hold that cannot be placed or lifted is refused with what to do."""
    with pytest.raises(HoldRefused, match=said):
        sign(shop, **asked)  # type: ignore[arg-type]


def test_one_hold_is_enough(shop: Record):
    """A second hold on the same frame is refused by the number of the first; the very same sent twice is the first."""
    number = sign(shop, "placed")
    with pytest.raises(HoldRefused, match=f"SW-1 is under {number} already"):
        sign(shop, "placed", reason="another letter came")
    assert sign(shop, "placed") == number
