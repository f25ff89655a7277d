"""Typesets a release certificate as PDF/A-3b with its data attached; the same data gives the same bytes."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from server.documents.typesetting import typeset
from server.facts.moment import parse_moment

_SHEET = Path(__file__).parent / "certificate.typ"


def certificate_pdf(told: Mapping[str, Any]) -> bytes:
    """Typeset the certificate; it is dated by the signature of the release and not by the clock."""
    data = json.dumps(told, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return typeset(_SHEET, {"data": data}, parse_moment(told["released_at"]) // 1000)
