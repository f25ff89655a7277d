"""A qualification record gives its ranges from its coupon where a table is named."""

import re

import pytest

from server.procedures.coupon_reading import with_read_ranges

BASE, DEPOSIT = "ASME IX QW-451.1 base metal", "ASME IX QW-451.1 deposit"


def test_the_range_lies_in_every_table_named() -> None:
    """Base metal from 0.9 mm on, and no more than twice the deposit."""
    told = {"coupon": {"thickness_mm": 0.9, "deposit_mm": 0.7}, "read_by": [BASE, DEPOSIT]}
    found = with_read_ranges(told)["thickness"]
    assert (found["low"], found["high"], found["unit"]) == (0.9, pytest.approx(1.4), "mm")


def test_what_is_written_out_stands() -> None:
    """A written range goes before the table's."""
    own = {"low": 0.9, "high": 1.0, "unit": "mm"}
    assert with_read_ranges({"coupon": {"thickness_mm": 0.9}, "read_by": [BASE], "thickness": own})["thickness"] == own


@pytest.mark.parametrize(
    ("coupon", "read_by", "words"),
    [
        ({"thickness_mm": 1}, ["ours"], "read_by names 'ours'; tables brought along are"),
        ({"diameter_mm": 38}, [BASE], "has no row for this coupon; give its thickness_mm"),
        ({"wall": 1}, [BASE], "each a figure over 0"),
    ],
)
def test_what_cannot_be_read_is_named(coupon: dict[str, float], read_by: list[str], words: str) -> None:
    """An unknown table, a missing measure and a stray field each get an error that says what is expected."""
    with pytest.raises(ValueError, match=re.escape(words)):
        with_read_ranges({"coupon": coupon, "read_by": read_by})
