"""Gathers all incidents into one plan, each at its place."""

from collections.abc import Callable

from demo_data.generator.incidents import i01_bad_cylinder, i01_told, i05_covered_early, i08_slow_clock
from demo_data.generator.plan import Place, Plan

Plant = Callable[[Plan, Place], None]
NAMED_CUSTOMERS = {41: "C-01", 39: "C-03", 115: "C-04", 117: "C-05", 119: "C-06", 137: "C-06", 128: "C-08", 130: "C-09"}


def _bad_cylinder(plan: Plan, place: Place) -> None:
    i01_bad_cylinder.plant(plan, place)
    plan.told.append(("I-01", i01_told.tell))


_ALL: tuple[tuple[str, Plant], ...] = (
    ("I-01", _bad_cylinder),
    ("I-05a", i05_covered_early.plant_tour),
    ("I-05b", i05_covered_early.plant_step_through),
    ("I-08", i08_slow_clock.plant),
)


def planted(moved: dict[str, int]) -> Plan:
    """Give the plan; `moved` says by how many production weeks an incident lies later than it is told."""
    plan = Plan()
    first = Place(moved.get("I-01", 0))
    plan.facts["customers"] = {number + 4 * first.weeks: customer for number, customer in NAMED_CUSTOMERS.items()}
    plan.facts["claimed frame"] = first.number(41)
    for name, plant in _ALL:
        plant(plan, Place(moved.get(name, 0)))
    return plan
