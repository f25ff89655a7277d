"""The answer key, item by item: what is planted in the whole shop is found, and what only looks like it is left alone.

Both tellings of the shop are written, read and judged as the service does, without a record under them; that a record
once loaded holds the same is proved on the small shop. The first telling is judged whole by the book of then; by
today's book, and of the moved telling, only the frames are that a row beside chance or a decoy is about, and all that
is shared; and the moved telling is judged beside the first: that keeps it under a minute. `-s` shows the tables.
"""

from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

import pytest

from tests.demo_data import judged
from tests.demo_data.against_truth import Against

Comparing = Callable[[str, str], Against]
ASKED = [("first", "then"), ("first", "today"), ("moved", "then")]
INCIDENTS = {f"I-{number:02d}" for number in range(1, 15)}


@pytest.fixture(scope="module")
def compared(tmp_path_factory: pytest.TempPathFactory) -> Comparing:
    """Each telling written once, each judged once by a book: the moved one by a process of its own meanwhile."""
    folder = tmp_path_factory.mktemp("found")
    with ProcessPoolExecutor(1, get_context("spawn")) as beside:
        moved = beside.submit(judged.compared, folder / "moved", "moved", ("then",))
        first = judged.compared(folder / "first", "first", ("then", "today"), whole=("then",))
        done = {"first": first, "moved": moved.result()}
    for version, book in ASKED:
        print("\n" + done[version][book].table(f"{version} telling, book of {book}"))
    return lambda version, book: done[version][book]


@pytest.mark.parametrize(("version", "book"), ASKED)
def test_everything_planted_is_found(compared: Comparing, version: str, book: str):
    """Every row of the truth table is a finding of its word and severity, and every question has a rule behind it."""
    found = compared(version, book)
    wrong = [*found.missing, *found.unasked]
    assert not wrong, found.table(f"{version} telling, book of {book}")


@pytest.mark.parametrize(("version", "book"), ASKED)
def test_no_decoy_is_flagged(compared: Comparing, version: str, book: str):
    """Nothing that only looks like trouble is outside or unknown; marginal flags nothing."""
    found = compared(version, book)
    assert not found.flagged, found.table(f"{version} telling, book of {book}")


@pytest.mark.parametrize(("version", "book"), ASKED)
def test_nothing_is_found_beside_it(compared: Comparing, version: str, book: str):
    """Whatever is found was planted or drawn by chance, and stands in the table: no noise on the desk."""
    found = compared(version, book)
    assert not found.beside, found.table(f"{version} telling, book of {book}")


@pytest.mark.parametrize(("version", "book"), ASKED)
def test_every_incident_is_asked_for(compared: Comparing, version: str, book: str):
    """All fourteen incidents stand in the table, and most have decoys beside them."""
    tallies = compared(version, book).by_incident
    assert {name for name, each in tallies.items() if each.asked} >= INCIDENTS
    if book == "then":
        assert {name for name, each in tallies.items() if each.decoys} >= INCIDENTS
