"""Typesets a frame's dossier as PDF/A-3b with the very data it was set from attached as JSON."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from server.facts.moment import parse_moment

_HERE = Path(__file__).parent


def dossier_json(told: Mapping[str, Any]) -> bytes:
    """Write the data in one fixed way, so that the attachment and the export are the same bytes."""
    return json.dumps(told, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False).encode()


def dossier_pdf(told: Mapping[str, Any]) -> bytes:
    """Typeset the dossier; the same data gives the same bytes, on any machine."""
    # Only who asks for a document pays for loading the typesetter.
    import typst

    made = datetime.fromtimestamp(parse_moment(told["told_at"]) / 1000, UTC)
    return typst.compile(
        _HERE / "dossier.typ",
        root=_HERE,
        ignore_system_fonts=True,
        sys_inputs={"data": dossier_json(told).decode()},
        format="pdf",
        pdf_standards="a-3b",
        timestamp=int(made.timestamp()),
    )
