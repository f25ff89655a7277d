"""Typesets a sheet as PDF/A-3b, and lets go of what the typesetter would remember of it."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import typst

_REMEMBERED_FOR = 10
"""The typesetter remembers every piece it set until it was not needed in so many documents."""


def typeset(sheet: Path, given: Mapping[str, str], at_s: int) -> bytes:
    """Typeset a sheet beside its files with the texts given, dated to a second since 1970."""
    # Only who asks for a document pays for loading the typesetter.
    import typst

    try:
        return typst.compile(
            sheet,
            root=sheet.parent,
            font_paths=_fonts(),
            sys_inputs=dict(given),
            format="pdf",
            pdf_standards="a-3b",
            timestamp=at_s,
        )
    finally:
        forget()


def forget() -> None:
    """Set empty documents until nothing of another one is remembered: 40 MB of a frame's, for each of the last ten."""
    import typst

    for _ in range(_REMEMBERED_FOR + 1):
        typst.compile(b"", font_paths=_fonts())


@cache
def _fonts() -> "typst.Fonts":
    import typst

    return typst.Fonts(include_system_fonts=False)
