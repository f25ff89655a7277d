"""One name for all the bench's files together."""

from pathlib import Path

import pytest

from server.pages.bench import shell


def test_one_changed_letter_is_another_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Changing any kept file, the service worker included, changes the build's name."""
    for name in ("a.js", "b.css", "bench.html", "sw.js"):
        (tmp_path / name).write_text(name)
    monkeypatch.setattr(shell, "FOLDER", tmp_path)
    names = [shell.build()]
    for name in ("a.js", "b.css", "bench.html", "sw.js"):
        (tmp_path / name).write_text(f"{name} changed")
        names.append(shell.build())
    assert len(set(names)) == 5


def test_the_worker_does_not_keep_itself() -> None:
    """The service worker is not among the files it keeps, so that a new one is always found."""
    assert all(not address.endswith("/sw.js") for address in shell.shell_addresses())
