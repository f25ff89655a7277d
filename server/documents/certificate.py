"""Typesets a release certificate as PDF/A-3b with its data attached; the same data gives the same bytes."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from server.facts.moment import parse_moment

_HERE = Path(__file__).parent


def certificate_pdf(told: Mapping[str, Any]) -> bytes:
    """Typeset the certificate; it is dated by the signature of the release and not by the clock."""
    # Only who asks for a document pays for loading the typesetter.
    import typst

    data = json.dumps(told, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return typst.compile(
        _HERE / "certificate.typ",
        root=_HERE,
        ignore_system_fonts=True,
        sys_inputs={"data": data},
        format="pdf",
        pdf_standards="a-3b",
        timestamp=parse_moment(told["released_at"]) // 1000,
    )
