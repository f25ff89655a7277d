"""The schema files in docs/ are those the program writes."""

from pathlib import Path

import pytest

from server.commands.schema import run, schema_files

DOCS = Path(__file__).resolve().parents[2] / "docs"


@pytest.mark.parametrize("name", ["procedure.schema.json", "design.schema.json"])
def test_the_schema_in_docs_is_up_to_date(name: str) -> None:
    """After a change of what a file may say, `strawline schema` has been run."""
    assert (DOCS / name).read_text(encoding="utf-8") == schema_files()[name]


def test_both_schemas_are_written_into_the_folder_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The command writes both files and says where."""
    assert run([str(tmp_path)]) == 0
    assert {file.name for file in tmp_path.iterdir()} == set(schema_files())
    assert str(tmp_path / "design.schema.json") in capsys.readouterr().out


def test_a_folder_that_is_not_there_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A mistyped folder is answered with the folder and what to do, and nothing is written."""
    assert run([str(tmp_path / "nowhere")]) == 2
    assert "nowhere" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []
