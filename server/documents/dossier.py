"""Typesets a frame's dossier as PDF/A-3b with its pictures, and the very data it was set from attached as JSON."""

import json
import shutil
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from server.documents.picture import smaller
from server.documents.typesetting import typeset
from server.facts.moment import parse_moment

_HERE = Path(__file__).parent
_SHEET = "dossier.typ"
_LONGEST_PX = 900
"""A third of a page's width at 400 to the inch."""


def dossier_json(told: Mapping[str, Any]) -> bytes:
    """Write the data in one fixed way, so that the attachment and the export are the same bytes."""
    return json.dumps(told, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False).encode()


def dossier_pdf(
    told: Mapping[str, Any], pictures: Mapping[str, bytes] | None = None, drawn: Mapping[str, str] | None = None
) -> bytes:
    """Typeset the dossier; the same data, pictures (by SHA-256) and drawings (SVG by name) give the same bytes."""
    with TemporaryDirectory(prefix="dossier-") as folder:
        # The typesetter takes binary files by their path alone.
        root = Path(folder)
        shutil.copy(_HERE / _SHEET, root / _SHEET)
        for sha256, content in (pictures or {}).items():
            (root / f"{sha256}.jpg").write_bytes(smaller(content, _LONGEST_PX))
        given = {
            "data": dossier_json(told).decode(),
            "pictures": json.dumps(sorted(pictures or {})),
            "drawn": json.dumps(drawn or {}, ensure_ascii=False),
        }
        return typeset(root / _SHEET, given, parse_moment(told["told_at"]) // 1000)
