"""Writes the few sheets of paper that came to the shop from outside as PDFs; the same bytes every time."""

import hashlib
import json
from collections.abc import Iterable
from pathlib import Path

from demo_data.generator.devices import iso
from demo_data.generator.renaming import Renaming
from demo_data.generator.story import Paper, Sheet
from server.documents.typesetting import typeset
from server.facts.moment import parse_moment

_LAYOUT = Path(__file__).with_name("sheet.typ")


def write_sheets(folder: Path, papers: Iterable[Paper], rename: Renaming) -> dict[Sheet, str]:
    """Write each sheet that a paper names into a shop folder, dated by that paper, and give its SHA-256."""
    written = {}
    for paper in papers:
        for sheet in (value for value in paper.line.values() if isinstance(value, Sheet)):
            lines = json.dumps(rename.line(sheet.words).splitlines())
            dated_ms = parse_moment(rename.line(iso(paper.at)))
            content = typeset(_LAYOUT, {"lines": lines}, dated_ms // 1000)
            target = folder / sheet.file
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
            written[sheet] = hashlib.sha256(content).hexdigest()
    return written
