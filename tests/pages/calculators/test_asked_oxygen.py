"""The oxygen a purge calculator starts from is the strictest of the procedures in force."""

from datetime import date

from server.pages.calculators.asked_oxygen import oxygen_asked
from server.procedures.reading import read_procedure
from tests.pages.bench.bench_shop import ROOT
from tests.plan.cart import cart

DESIGN = cart()
TODAY = date(2026, 1, 1)


def procedures(name: str) -> list:
    """The revisions of one written procedure that comes with the house, under the name the cart's joints ask for."""
    files = sorted((ROOT / "procedures" / "thin_tube_to_thin_tube").glob("*.toml"))
    read = [read_procedure(file.read_text(encoding="utf-8"), file.name) for file in files]
    return [each.model_copy(update={"name": name}) for each in read]


def test_the_figure_is_that_of_the_revision_in_force() -> None:
    """It is the limit of the revision of that day, with the revision named."""
    revisions = procedures("LD")
    last = max(revisions, key=lambda each: each.valid_from)
    high = next(limit.high for limit in last.limits if limit.name == "oxygen")
    assert oxygen_asked([DESIGN], revisions, TODAY) == {"CART": (f"{high:g}", f"From {last.called}, in force today.")}
    before = oxygen_asked([DESIGN], revisions, min(each.valid_from for each in revisions))
    assert before != oxygen_asked([DESIGN], revisions, TODAY)


def test_without_a_procedure_there_is_no_figure() -> None:
    """A design whose joints name no procedure in force has no figure of its own."""
    assert oxygen_asked([DESIGN], procedures("another"), TODAY) == {}


def test_of_several_procedures_the_strictest_counts() -> None:
    """Where the joints' procedures ask for different figures, the lowest stands there, with its own procedure named."""
    mild, strict = sorted(procedures("LD"), key=lambda each: each.valid_from)
    strict = strict.model_copy(update={"name": "LE"})
    found = oxygen_asked([DESIGN], [mild, strict], TODAY)
    assert found["CART"][1] == f"From {strict.called}, in force today."
    assert float(found["CART"][0]) < next(limit.high or 0.0 for limit in mild.limits if limit.name == "oxygen")
