"""What standards say of weld colours and of argon, held against the procedures that name them as their source."""

from datetime import date
from pathlib import Path

import pytest

from server.facts.limit import Limit
from server.facts.procedure import Procedure
from server.judgement.colours import GRADES
from server.procedures.reading import read_procedure

FOLDER = Path(__file__).resolve().parents[2] / "procedures"
PRODUCTION = [read_procedure(f.read_text(encoding="utf-8"), f.name) for f in sorted(FOLDER.rglob("*.toml"))]


def naming(source: str) -> list[tuple[Procedure, Limit]]:
    return [(paper, limit) for paper in PRODUCTION for limit in paper.limits if source in limit.source]


@pytest.mark.parametrize(
    ("colour", "zone", "accepted"),
    [("silver", "bead", True), ("light straw", "bead", True), ("brown", "bead", False), ("violet", "bead", False),
     ("blue", "bead", False), ("grey", "bead", False), ("white and flaky", "bead", False),
     ("blue", "edge", True), ("grey", "edge", False), ("white and flaky", "edge", False)],
)  # fmt: skip
def test_colours_iso_9606_5_names(colour: str, zone: str, accepted: bool):
    """ISO 9606-5:2000: silver and straw are accepted, so is a narrow band of intense colour at the edge of the gas
    cover; darker brown, purple, blue, grey and flaky white are not."""
    held = [limit for _, limit in naming("ISO 9606-5") if (limit.side, limit.zone) == ("outside", zone)]
    assert held
    assert all((limit.high is not None and GRADES.index(colour) <= limit.high) is accepted for limit in held)


@pytest.mark.parametrize(
    ("name", "value", "good"),
    [("gas_purity", 99.995, True), ("gas_purity", 99.99, False),
     ("dew_point", -50.0, True), ("dew_point", -45.0, False)],
)  # fmt: skip
def test_argon_as_aws_g2_4_has_it(name: str, value: float, good: bool):
    """AWS G2.4:2014, a guide: argon of 99.995 % or better with a dew point of −50 °C or lower."""
    held = [limit for _, limit in naming("AWS G2.4") if limit.name == name]
    assert held
    for limit in held:
        inside = (limit.low is None or value >= limit.low) and (limit.high is None or value <= limit.high)
        assert inside is good


def test_the_sources_are_named_in_force():
    """Every production procedure names both, so that what is held here is what is welded by."""
    for source in ("ISO 9606-5", "AWS G2.4"):
        assert {paper.name for paper, _ in naming(source)} >= {
            paper.name for paper in PRODUCTION if paper.stage == "production" and paper.valid_from > date(2020, 1, 1)
        }
