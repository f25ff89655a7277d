"""Commands are found by their files and described without being imported."""

from pathlib import Path

from server.door.commands import all_commands, usage


def test_a_file_in_the_folder_is_a_command(tmp_path: Path) -> None:
    """A file's name, with dashes, is what is typed; its first sentence is its help; a private file is none."""
    (tmp_path / "check_record.py").write_text('"""Recompute everything.\n\nAt length.\n"""\n')
    (tmp_path / "__init__.py").write_text('"""The room."""\n')
    (command,) = all_commands(tmp_path)
    assert (command.name, command.module, command.help) == (
        "check-record",
        "server.commands.check_record",
        "Recompute everything.",
    )


def test_finding_a_command_does_not_run_it(tmp_path: Path) -> None:
    """A command whose module cannot even be imported is still listed, so one broken command hides no other."""
    (tmp_path / "broken.py").write_text('"""Fails."""\nraise SystemExit("imported")\n')
    (tmp_path / "sound.py").write_text('"""Works."""\n')
    assert [command.name for command in all_commands(tmp_path)] == ["broken", "sound"]


def test_the_usage_names_every_command_with_its_sentence(tmp_path: Path) -> None:
    """The help page has one line per command, name first."""
    (tmp_path / "load.py").write_text('"""Load a shop folder."""\n')
    assert "  load            Load a shop folder." in usage(all_commands(tmp_path)).splitlines()


def test_our_own_commands_all_say_what_they_do() -> None:
    """Every command of the house has a sentence, and `test` is among them."""
    commands = {command.name: command for command in all_commands()}
    assert "test" in commands
    assert [name for name, command in commands.items() if not command.help.endswith((".", "?"))] == []
