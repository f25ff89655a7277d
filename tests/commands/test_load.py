"""The command that loads a shop folder, and the one that writes an empty one."""

from pathlib import Path

import pytest

from server.commands import init, load


def test_an_empty_folder_is_written_and_loads(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What `init` writes, `load` takes; the second time nothing is new, which is said."""
    shop, data = tmp_path / "shop", tmp_path / "data"
    assert init.run([str(shop)]) == 0
    assert "strawline load" in capsys.readouterr().out
    for new in (1, 0):
        assert load.run([str(shop), "--data", str(data)]) == 0
        assert f"1 lines read from {shop}, {new} of them new" in capsys.readouterr().out


def test_a_folder_in_use_is_not_written_into(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`init` leaves a folder alone that holds something, says so, and gives 2."""
    (tmp_path / "mine.txt").write_text("mine")
    assert init.run([str(tmp_path)]) == 2
    assert "not empty" in capsys.readouterr().err
    assert [file.name for file in tmp_path.iterdir()] == ["mine.txt"]


def test_what_is_wrong_in_a_folder_is_said_and_nothing_is_loaded(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A broken file is named with its line, the command gives 2, and no record is made."""
    init.run([str(tmp_path / "shop")])
    (tmp_path / "shop" / "people.toml").write_text('[[person]]\nid = "p"\nname = \n')
    assert load.run([str(tmp_path / "shop"), "--data", str(tmp_path / "data")]) == 2
    assert "people.toml, line 3" in capsys.readouterr().err
    assert not (tmp_path / "data").exists()
