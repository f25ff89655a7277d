"""The bench's own files under one name per build, so that a tablet keeps them all or fetches them all anew."""

import hashlib
from functools import lru_cache
from pathlib import Path

from server.pages.frame.assets import asset

FOLDER = Path(__file__).resolve().parent
WORKER = "sw.js"
_SHARED = ("frame/sheet.css", "frame/mark.svg")


def shell_files() -> list[Path]:
    """Give the scripts and the style that make up the bench, apart from its service worker."""
    return sorted(file for file in FOLDER.iterdir() if file.suffix in (".js", ".css") and file.name != WORKER)


def build() -> str:
    """Give the digest of everything the tablet keeps; one changed letter is another build."""
    kept = (*shell_files(), FOLDER / "bench.html", FOLDER / WORKER)
    return _digest(tuple((file, file.stat().st_mtime_ns) for file in kept))


def shell_addresses() -> list[str]:
    """Give the addresses of everything the bench needs to open without the network, the page itself first."""
    own = [f"/bench/app/{build()}/{file.name}" for file in shell_files()]
    return ["/bench", *own, *(asset(name) for name in _SHARED)]


@lru_cache(maxsize=8)
def _digest(files: tuple[tuple[Path, int], ...]) -> str:
    read = hashlib.sha256()
    for file, _ in files:
        read.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return read.hexdigest()[:12]
