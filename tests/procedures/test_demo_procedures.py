"""The demo shop's written procedures: they read, they are complete, they are marked, they defer."""

import re
from datetime import date
from pathlib import Path

import pytest

from server.facts.limit import Limit
from server.facts.procedure import Procedure
from server.procedures.in_force import revision_in_force
from server.procedures.reading import read_procedure

FOLDER = Path(__file__).resolve().parents[2] / "procedures"
FILES = sorted(FOLDER.rglob("*.toml"))
READ = [read_procedure(file.read_text(encoding="utf-8"), file.name) for file in FILES]
# What a written procedure has to speak of, as the issue lists it.
ASKED = re.findall(
    r"\w+",
    """
    gas gas_purity dew_point torch_flow trailing_flow pre_purge_flow purge_flow pre_purge oxygen filler_class rod
    peak_current background_current on_time frequency mean_current volts travel heat_input interpass pre_flow
    post_flow tungsten cup fusions colour
    """,
)
DANGERS = ["argon", "cylinders", "chlor", "acid", "thoriated", "ultraviolet", "ozone", "fines"]


def by_name(name: str, on: date) -> Procedure:
    found = revision_in_force(READ, name, on)
    assert found is not None
    return found


def limit_for(procedure: Procedure, name: str, inside: str = "F", **there: str) -> Limit | None:
    """The limit that holds at one place, or none."""
    held = (limit for limit in procedure.limits if limit.name == name and inside in (limit.plan.where or inside))
    told = (limit for limit in held if all(value in _said(limit, field) for field, value in there.items()))
    return next(told, None)


def _said(limit: Limit, field: str) -> tuple[str, ...]:
    said = getattr(limit, field)
    return said if isinstance(said, tuple) else (said,)


@pytest.mark.parametrize("procedure", READ, ids=lambda p: p.called)
def test_each_speaks_of_all_it_should(procedure: Procedure) -> None:
    """Gas, purge, arc, filler, fusions and colour all have a limit with source, start and plan."""
    assert set(ASKED) <= {limit.name for limit in procedure.limits}
    assert {limit.line for limit in procedure.limits if limit.name == "dew_point"} == {"torch", "trailing", "purge"}
    assert all(limit.valid_from >= procedure.valid_from for limit in procedure.limits)
    assert procedure.cleaning


@pytest.mark.parametrize("procedure", READ, ids=lambda p: p.called)
def test_each_is_marked_as_the_demo_shops_own(procedure: Procedure) -> None:
    """Nobody can take a demo value for a recommendation."""
    assert "demo shop" in procedure.marked
    assert "No welding recommendation" in procedure.marked


@pytest.mark.parametrize("procedure", READ, ids=lambda p: p.called)
def test_each_warns_of_every_danger_with_its_authority(procedure: Procedure) -> None:
    """Argon, cylinders, chlorinated vapour, acid, thoriated dust, ultraviolet, ozone and fines, each with a source."""
    words = [caution.words.lower() for caution in procedure.cautions]
    assert all(any(danger in said for said in words) for danger in DANGERS)
    assert all(len(caution.authority) > 5 for caution in procedure.cautions)


def test_the_revision_of_may_is_stricter_than_the_one_before() -> None:
    """From 5 May 2025 oxygen is at most 20 ppm where it was 50, and the day before it was still 50."""
    for name in ("T1", "T2"):
        limits = [limit_for(by_name(name, day), "oxygen") for day in (date(2025, 5, 4), date(2025, 5, 5))]
        assert [limit.high for limit in limits if limit] == [50, 20]


def test_inside_colour_is_asked_more_often_from_may() -> None:
    """A joint seen in part was one per stage and becomes every joint; a blind one is never asked."""
    before, after = by_name("T1", date(2025, 5, 4)), by_name("T1", date(2025, 5, 5))
    found = [limit_for(p, "colour", side="inside", zone="bead", inside="P") for p in (before, after)]
    assert [(limit.high, limit.plan.when) for limit in found if limit] == [(2, "one per stage"), (1, "every joint")]
    assert limit_for(after, "colour", side="inside", inside="N") is None


def test_a_narrow_edge_band_is_tolerated_alone() -> None:
    """Blue beside a sound bead passes, blue on the bead does not, and grey passes nowhere."""
    edge, bead = (
        limit_for(by_name("T1", date(2025, 6, 1)), "colour", side="outside", zone=z) for z in ("edge", "bead")
    )
    assert edge is not None
    assert bead is not None
    assert bead.high is not None
    assert edge.high is not None
    assert bead.high < 5 <= edge.high < 7


def test_the_repair_takes_the_current_of_the_joint_it_repairs() -> None:
    """The repair procedure has one peak current for each kind of joint, and two signatures from the second on."""
    repair = by_name("R1", date(2025, 6, 1))
    found = [limit_for(repair, "peak_current", joint_kinds=kind) for kind in repair.repairs]
    assert [(limit.low, limit.high) for limit in found if limit] == [(70, 105), (85, 125)]
    assert repair.approvals == (("quality lead",), ("quality lead", "owner"))
