"""The sheet of a dossier carries each value on a line, and nothing a sheet would run."""

import csv
import io

from server.documents.dossier_csv import COLUMNS, dossier_csv
from tests.documents.sample_dossier import a_dossier


def test_one_line_to_a_value():
    """Four passes of three values are twelve lines under one head."""
    rows = list(csv.reader(io.StringIO(dossier_csv(a_dossier(4)))))
    assert tuple(rows[0]) == COLUMNS
    first = [row[8:11] for row in rows[1:4]]
    assert first == [["volts", "10.1", "V"], ["mean_current", "37.5", "A"], ["oxygen", "8.0", "ppm"]]
    assert len(rows) == 13


def test_a_formula_is_told_as_text():
    """What a tablet sent cannot become a formula in somebody's sheet."""
    told = a_dossier(1)
    told["joints"][0]["attempts"][0]["entries"][0]["what"] = "=HYPERLINK(1)"
    assert "'=HYPERLINK(1)" in dossier_csv(told)


def test_what_was_read_apart_from_a_pass_names_its_joint_and_its_note():
    """A laboratory's reading stands on the joint it is of, with what was noted beside it."""
    told = a_dossier(1)
    told["way"] = [told["joints"][0]["attempts"][0]["entries"][0] | {"joint": "J06", "note": "hydrogen 168 ppm"}]
    first = next(csv.DictReader(io.StringIO(dossier_csv(told))))
    assert (first["joint"], first["attempt"], first["note"]) == ("J06", "", "hydrogen 168 ppm")
