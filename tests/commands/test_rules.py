"""The command that writes the rule book."""

from pathlib import Path

import pytest

from server.commands.rules import run
from server.judgement.described import rules_page


def test_it_writes_the_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """The page is written where it was asked for, and the command says so."""
    assert run([str(tmp_path / "rules.md")]) == 0
    assert (tmp_path / "rules.md").read_text(encoding="utf-8") == rules_page()
    assert "wrote" in capsys.readouterr().out


def test_a_folder_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """Without the folder nothing is written, and the answer says what to name instead."""
    assert run([str(tmp_path / "nowhere" / "rules.md")]) == 2
    assert "is no folder" in capsys.readouterr().out
