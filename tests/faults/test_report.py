"""What a long run found is kept as its own row: the next run replaces it, and nothing else on the page changes."""

from itertools import islice
from pathlib import Path

import pytest

from tests.faults.long_runs import FOR_EVER_MIN, batches
from tests.faults.report import BEGIN, END, PAGE, Row, keep, none_of

TOLD = "# Figures\n\nwritten by hand\n\n"


@pytest.fixture
def page(tmp_path: Path) -> Path:
    """A page with the two marks and words around them."""
    page = tmp_path / "measurements.md"
    page.write_text(f"{TOLD}{BEGIN}\n{END}\n\nand more\n")
    return page


def rows(page: Path) -> list[str]:
    return [line for line in page.read_text().splitlines() if line.startswith("| ")][1:]


def test_a_run_replaces_its_own_row_only(page: Path):
    """Of two runs each has a row; run again, the one has its new figure, and the other and the words stay."""
    keep(Row("kills", "0 lost in 10", "3 lost", "one"), page)
    keep(Row("power", "0 lost in 20", "4 lost", "two"), page)
    keep(Row("kills", "0 lost in 1,000", "5 lost", "one"), page)
    assert [row.split(" | ")[:3] for row in rows(page)] == [
        ["| kills", "0 lost in 1,000", "5 lost"],
        ["| power", "0 lost in 20", "4 lost"],
    ]
    assert page.read_text().startswith(TOLD)
    assert page.read_text().endswith("\n\nand more\n")


def test_without_the_marks_nothing_is_written(tmp_path: Path):
    """A page that lost its marks is left as it is, and the run fails with a word."""
    page = tmp_path / "measurements.md"
    page.write_text(TOLD)
    with pytest.raises(AssertionError, match="lacks the marks"):
        keep(Row("kills", "0", "1", "one"), page)
    assert page.read_text() == TOLD


def test_the_measurements_have_the_marks():
    """The page itself has each mark once."""
    text = PAGE.read_text()
    assert (text.count(BEGIN), text.count(END)) == (1, 1)


def test_none_in_so_many_says_how_little_that_is():
    """Beside the nought stands how often it may happen all the same."""
    assert none_of(5000, "lost") == "0 lost in 5,000 (so fewer than 0.06 %, at 95 % confidence)"


def test_batches_end_with_the_count_or_the_time():
    """Five of two each, the last one smaller; without time none."""
    assert list(batches(9, 2, FOR_EVER_MIN)) == [(0, 2), (2, 2), (4, 2), (6, 2), (8, 1)]
    assert list(islice(batches(9, 2, -1), 1)) == []
