"""Writes the few sheets of paper that came to the shop from outside as one-page PDFs; the same bytes every time."""

import hashlib
from collections.abc import Iterable
from pathlib import Path

from demo_data.generator.renaming import Renaming
from demo_data.generator.story import Paper, Sheet

_A4 = (595, 842)
_TOP, _STEP, _COLUMNS = 780, 18, (60, 300, 430)


def write_sheets(folder: Path, papers: Iterable[Paper], rename: Renaming) -> dict[Sheet, str]:
    """Write each sheet that a paper names into a shop folder, and give its SHA-256."""
    written = {}
    for sheet in (value for paper in papers for value in paper.line.values() if isinstance(value, Sheet)):
        content = pdf_of(rename.line(sheet.words).splitlines())
        target = folder / sheet.file
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        written[sheet] = hashlib.sha256(content).hexdigest()
    return written


def pdf_of(lines: list[str]) -> bytes:
    """Set lines one under the other, the first one large; a bar parts columns."""
    rows = enumerate(lines)
    drawn = "\n".join(f"BT /F {16 if not row else 11} Tf {_cells(line, row)} ET" for row, line in rows).encode("cp1252")
    objects = (
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %d %d] /Contents 4 0 R /Resources << /Font << /F 5 0 R >> >> >>"
        % _A4,
        b"<< /Length %d >>\nstream\n%s\nendstream" % (len(drawn), drawn),
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>",
    )
    return _bound(objects)


def _cells(line: str, row: int) -> str:
    high = _TOP - row * _STEP
    cells = (cell.strip().replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)") for cell in line.split("|"))
    return " ".join(f"1 0 0 1 {x} {high} Tm ({cell}) Tj" for x, cell in zip(_COLUMNS, cells, strict=False))


def _bound(objects: Iterable[bytes]) -> bytes:
    """Put the objects behind one another, with the table that says where each begins."""
    out, begins = bytearray(b"%PDF-1.4\n"), []
    for number, each in enumerate(objects, 1):
        begins.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, each)
    table, entries = len(out), len(begins) + 1
    out += b"xref\n0 %d\n0000000000 65535 f \n" % entries + b"".join(b"%010d 00000 n \n" % at for at in begins)
    out += b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (entries, table)
    return bytes(out)
