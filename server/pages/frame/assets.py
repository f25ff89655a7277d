"""Styles and scripts of the screens, named by their content so that a browser may keep them for ever."""

import hashlib
from functools import lru_cache
from pathlib import Path

from fastapi import APIRouter, HTTPException, Response

PAGES = Path(__file__).resolve().parent.parent
_TYPES = {
    ".css": "text/css",
    ".js": "text/javascript",
    ".svg": "image/svg+xml; charset=utf-8",
    ".json": "application/json",
}

router = APIRouter(include_in_schema=False)


@lru_cache(maxsize=256)
def _digest(path: Path, _changed_ns: int) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()[:12]


def asset(name: str) -> str:
    """Give the address of a style or script, `bench/bench.js`, with its digest in it."""
    path = PAGES / name
    return f"/assets/{_digest(path, path.stat().st_mtime_ns)}/{name}"


@router.get("/assets/{digest}/{name:path}")
def send_asset(digest: str, name: str) -> Response:
    """Send one style or script out of the screens' folders; its name may be kept for a year."""
    path, kind = PAGES / name, _TYPES.get(Path(name).suffix)
    if kind is None or not _is_ours(path):
        raise HTTPException(404, "No such style or script.")
    current = digest == _digest(path, path.stat().st_mtime_ns)
    keep = "public, max-age=31536000, immutable" if current else "no-cache"
    return Response(path.read_bytes(), media_type=kind, headers={"Cache-Control": keep})


def _is_ours(path: Path) -> bool:
    """Say whether a file of the screens lies there; a name that no file can have names none."""
    try:
        return path.resolve().is_relative_to(PAGES) and path.is_file()
    except (OSError, ValueError):
        return False
