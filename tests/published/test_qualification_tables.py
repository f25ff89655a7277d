"""Ranges of qualification as printed: ASME IX tables read in copies, and what an inspector told of another code."""

from datetime import date

import pytest

from server.facts.coupon_range import WeldedCoupon
from server.facts.people import Qualification
from server.facts.published_ranges import published_ranges
from server.occasions.standings import Standings

Ends = tuple[float, float | None]


def read(table: str, **coupon: float) -> Ends | None:
    return published_ranges()[table].range_of(WeldedCoupon.model_validate(coupon))


@pytest.mark.parametrize(
    ("thickness_mm", "ends"), [(0.9, (0.9, 1.8)), (1.6, (1.5, 3.2)), (3.0, (1.5, 6.0)), (12.0, (5.0, 24.0)),
                               (1.5, (1.5, 3.0)), (10.0, (1.5, 20.0)), (38.0, (5.0, 200.0)), (160.0, (5.0, 212.8))]
)  # fmt: skip
def test_base_metal(thickness_mm: float, ends: Ends):
    """ASME IX-2017 table QW-451.1, read in a copy: base metal a coupon qualifies a procedure for."""
    assert read("ASME IX QW-451.1 base metal", thickness_mm=thickness_mm) == pytest.approx(ends)


@pytest.mark.parametrize(
    ("thickness_mm", "deposit_mm", "most_mm"), [(0.9, 0.9, 1.8), (12.0, 4.0, 8.0), (30.0, 18.0, 36.0),
                                                (30.0, 19.0, 60.0), (40.0, 20.0, 200.0), (160.0, 20.0, 212.8)]
)  # fmt: skip
def test_deposit(thickness_mm: float, deposit_mm: float, most_mm: float):
    """ASME IX-2017 table QW-451.1, read in a copy: weld metal a coupon qualifies a procedure for."""
    found = read("ASME IX QW-451.1 deposit", thickness_mm=thickness_mm, deposit_mm=deposit_mm)
    assert found == pytest.approx((0.0, most_mm))


@pytest.mark.parametrize(
    ("deposit_mm", "layers", "most_mm"), [(1.2, 1, 2.4), (13.0, 3, None), (13.0, 2, 26.0), (12.9, 3, 25.8)]
)
def test_welder_deposit(deposit_mm: float, layers: int, most_mm: float | None):
    """ASME IX table QW-452.1(b), read in a copy: twice the deposit, from 13 mm in three layers whatever is welded."""
    assert read("ASME IX QW-452.1(b)", deposit_mm=deposit_mm, layers=layers) == pytest.approx((0.0, most_mm))


@pytest.mark.parametrize(
    ("outside_mm", "least_mm"), [(22.0, 22.0), (24.9, 24.9), (25.0, 25.0), (38.1, 25.0), (73.0, 73.0), (76.1, 73.0)]
)
def test_welder_diameter(outside_mm: float, least_mm: float):
    """ASME IX table QW-452.3, read in a copy: the least outer diameter of pipe, and none too large."""
    assert read("ASME IX QW-452.3", diameter_mm=outside_mm) == (least_mm, None)


def test_another_code():
    """AWS D17.1 as an inspector told it in a forum: 0.050 in qualifies 0.0335 to 0.200 in, within 0.5 %."""
    assert read("AWS D17.1 welder", thickness_mm=1.27) == pytest.approx((0.851, 5.08), rel=0.005)


@pytest.mark.parametrize(("asked", "valid"), [(date(2031, 7, 9), True), (date(2031, 7, 11), False)])
def test_six_months_without_the_process(asked: date, valid: bool):
    """ASME IX QW-322 as inspectors read it: last used on 10 January, current on 9 July and lapsed on 11 July."""
    told = {"id": "Q", "welder": "W", "procedures": ("P",), "thickness_mm": (0.5, 2.0), "standard": "ASME IX"}
    held = Qualification.model_validate(told | {"issued": date(2030, 9, 1), "continuity": "used"})
    standings = Standings([held], [], {}, welded={"W": {date(2031, 1, 10).toordinal()}})
    assert (standings.held["W"][0].last >= asked.toordinal()) is valid
