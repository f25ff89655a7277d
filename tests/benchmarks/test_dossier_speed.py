"""Reach of the dossier: five hundred entries against a bare table of as many rows, typeset in the same run."""

from itertools import count

import typst

from server.documents.dossier import dossier_pdf
from tests.benchmarks.turns import multiple
from tests.documents.sample_dossier import a_dossier

NEXT = count()


def bare_table() -> bytes:
    """Typeset 500 rows of four cells, with other words each time, since the typesetter remembers what it did."""
    turn = next(NEXT)
    cells = ", ".join(f"[turn {turn} cell {number}]" for number in range(2000))
    return typst.compile(f"#table(columns: 4, {cells})".encode())


def test_five_hundred_entries():
    """A dossier of 500 entries, each with other data, takes at most three bare tables of 500 rows."""
    dossier_pdf(a_dossier(5))
    assert multiple(lambda: dossier_pdf(a_dossier(500 + next(NEXT))), bare_table, 3.0, rounds=3) <= 3.0
