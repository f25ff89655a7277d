"""Which files belong to the project, and their text."""

import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TEXT_ENDINGS = {
    ".py",
    ".md",
    ".toml",
    ".txt",
    ".html",
    ".css",
    ".js",
    ".svg",
    ".json",
    ".jsonl",
    ".typ",
    ".mako",
    ".ini",
    "",
}


def project_files(root: Path = ROOT) -> list[Path]:
    """Every tracked file; in a copy without git, every file outside dot-folders."""
    if (root / ".git").exists():
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=root, capture_output=True, check=True, text=True).stdout
        return [root / name for name in listed.split("\0") if name and (root / name).is_file()]
    return [file for file in sorted(root.rglob("*")) if file.is_file() and not _in_dot_folder(file.relative_to(root))]


def python_files(*rooms: str) -> list[Path]:
    """The project's Python files in these top-level folders."""
    return [file for file in project_files() if file.suffix == ".py" and file.relative_to(ROOT).parts[0] in rooms]


def text_files(*rooms: str) -> list[Path]:
    """The project's text files, in these top-level folders or, without any named, everywhere."""
    texts = [file for file in project_files() if file.suffix in TEXT_ENDINGS]
    return [file for file in texts if not rooms or file.relative_to(ROOT).parts[0] in rooms]


def shown(file: Path) -> str:
    """The file's path as a reader of a failing test wants it."""
    return str(file.relative_to(ROOT)) if file.is_relative_to(ROOT) else file.name


def _in_dot_folder(relative: Path) -> bool:
    return any(part.startswith(".") or part == "__pycache__" for part in relative.parts[:-1])
