"""A list written as CSV reads back as it was, its sheet types every column, and no cell becomes a formula."""

import csv
import io
import json

import pytest

from server.documents.list_csv import Column, list_csv, list_metadata

COLUMNS = [Column("serial", "string", "the frame"), Column("value", "number", "oxygen [ppm]")]


def read(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def test_what_is_written_reads_back():
    """Commas, quotes and line ends inside a cell survive; a missing value is an empty cell."""
    awkward = 'F-7, the "old" one\nrepaired'
    rows: list[list[str | float | None]] = [[awkward, 4.5], ["F-8", None]]
    assert read(list_csv(COLUMNS, rows)) == [["serial", "value"], [awkward, "4.5"], ["F-8", ""]]


@pytest.mark.parametrize("cell", ["=1+1", "+49", "-2", "@SUM(A1)", "\t=1", "\r=1", "\n=1"])
def test_a_guarded_cell_is_no_formula(cell: str):
    """Whatever a spreadsheet would reckon with begins with an apostrophe; the plain flavour leaves it alone."""
    assert read(list_csv(COLUMNS[:1], [[cell]], guarded=True))[1] == ["'" + cell]
    assert read(list_csv(COLUMNS[:1], [[cell]]))[1] == [cell]


def test_a_negative_number_stays_a_number():
    """A number is no text, so it is not guarded."""
    assert read(list_csv(COLUMNS, [["F-7", -18.0]], guarded=True))[1] == ["F-7", "-18.0"]


def test_the_sheet_types_every_column():
    """The sheet beside the list names the file and gives each column its type and meaning, in order."""
    told = json.loads(list_metadata("open.csv", "What is open", COLUMNS))
    columns = told["tableSchema"]["columns"]
    assert told["url"] == "open.csv"
    assert [(each["name"], each["datatype"]) for each in columns] == [("serial", "string"), ("value", "number")]
