"""Gathers all incidents into one plan, each at its place."""

from collections.abc import Callable, Mapping

from demo_data.generator.incidents import (
    i01_bad_cylinder,
    i01_told,
    i02_lapsed,
    i03_mislabelled,
    i04_told,
    i04_wetted_cell,
    i05_covered_early,
    i06_overheated,
    i07_offline,
    i08_slow_clock,
    i09_claim,
    i10_coupon,
    i11_pictures,
    i12_old_card,
    i13_concession,
    i14_silent_tablet,
    old_frame,
)
from demo_data.generator.plan import Place, Plan

Plant = Callable[[Plan, Place], None]
_NAMED_CUSTOMERS: dict[str, dict[int, str]] = {
    "I-01": {41: "C-01", 39: "C-03"},
    "I-03": {115: "C-04", 117: "C-05", 119: "C-06", 137: "C-06"},
    "I-04": {128: "C-08", 130: "C-09"},
    "I-14": {251: "C-10"},
}


def _bad_cylinder(plan: Plan, place: Place) -> None:
    i01_bad_cylinder.plant(plan, place)
    plan.told.append(("I-01", i01_told.tell))


def _wetted_cell(plan: Plan, place: Place) -> None:
    i04_wetted_cell.plant(plan, place)
    plan.told.append(("I-04", lambda shop, story: i04_told.tell(shop, story, place)))


_ALL: tuple[tuple[str, Plant], ...] = (
    ("I-01", _bad_cylinder),
    ("I-02", i02_lapsed.plant),
    ("I-03", i03_mislabelled.plant),
    ("I-04", _wetted_cell),
    ("I-05a", i05_covered_early.plant_tour),
    ("I-05b", i05_covered_early.plant_step_through),
    ("I-06", i06_overheated.plant),
    ("I-07", i07_offline.plant),
    ("I-08", i08_slow_clock.plant),
    ("I-10", i10_coupon.plant),
    ("I-11", i11_pictures.plant),
    ("I-12", i12_old_card.plant),
    ("I-13", i13_concession.plant),
    ("I-14", i14_silent_tablet.plant),
    ("MB-0871", old_frame.plant),
)


def planted(moved: Mapping[str, int]) -> Plan:
    """Give the plan; `moved` says by how many production weeks an incident lies later than it is told."""
    plan = Plan()
    first = Place(moved.get("I-01", 0))
    plan.facts["customers"] = {
        number + 4 * moved.get(name, 0): customer
        for name, named in _NAMED_CUSTOMERS.items()
        for number, customer in named.items()
    }
    plan.facts["claimed frame"] = first.number(41)
    for name, plant in _ALL:
        plant(plan, Place(moved.get(name, 0)))
    # The claim lies where its cause lies, and is told last.
    i09_claim.plant(plan, first)
    return plan
