"""Certified figures of the NIST Statistical Reference Datasets.

Read: linear regression "Norris" and the eleven files of one-way analysis of variance, whose data travel inside the
scipy wheel. From memory: univariate "NumAcc4", whose data follow from its description.
"""

from pathlib import Path

import pytest
import scipy

from server.statistics.group_means import compare_means
from server.statistics.line_fit import fit_line
from server.statistics.summary import summarise

DATA = Path(scipy.__file__).parent / "stats" / "tests" / "data"


def rows(file: str, first_line: int) -> list[tuple[float, float]]:
    lines = (DATA / file).read_text(encoding="ascii").splitlines()[first_line - 1 :]
    pairs = (line.split() for line in lines if line.strip())
    return [(float(first), float(second)) for first, second in pairs]


@pytest.mark.parametrize(
    ("field", "certified"),
    [("slope", 1.00211681802045), ("intercept", -0.262323073774029), ("r_squared", 0.999993745883712)],
)
def test_norris(field: str, certified: float) -> None:
    """Norris: slope, intercept and r² to twelve digits (read)."""
    pairs = rows("nist_linregress/Norris.dat", first_line=61)
    fit = fit_line([x for _, x in pairs], [y for y, _ in pairs])
    assert len(pairs) == 36
    assert getattr(fit, field) == pytest.approx(certified, rel=2e-12)


@pytest.mark.parametrize(
    ("name", "certified", "digits"),
    [
        ("SiRstv", 1.18046237440255, 10),
        ("AtmWtAg", 15.946733567793, 10),
        ("SmLs01", 21.0, 10),
        ("SmLs02", 201.0, 10),
        ("SmLs03", 2001.0, 10),
        ("SmLs04", 21.0, 10),
        ("SmLs05", 201.0, 10),
        ("SmLs06", 2001.0, 10),
        # Here the readings themselves, as binary numbers, hold no more than four digits of what differs.
        ("SmLs07", 21.0, 4),
        ("SmLs08", 201.0, 4),
        ("SmLs09", 2001.0, 4),
    ],
)
def test_analysis_of_variance(name: str, certified: float, digits: int) -> None:
    """One-way analysis of variance: the certified ratio F of each file (read)."""
    groups: dict[str, list[float]] = {}
    for treatment, response in rows(f"nist_anova/{name}.dat", first_line=61):
        groups.setdefault(f"{treatment:g}", []).append(response)
    assert compare_means(groups).ratio == pytest.approx(certified, rel=10.0**-digits)


def test_numacc4() -> None:
    """NumAcc4: mean 10000000.2 and standard deviation 0.1 of 1001 long numbers (from memory)."""
    found = summarise([10000000.2, *(10000000.1, 10000000.3) * 500])
    assert found.mean == pytest.approx(10000000.2, rel=1e-15)
    assert found.sd == pytest.approx(0.1, abs=1e-8)
