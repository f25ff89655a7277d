"""Typesets a sheet as PDF/A-3b, and lets go of what the typesetter would remember of it."""

from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import typst

_CONTROLS = frozenset(map(chr, (*range(32), 127)))
_CHARACTERS_REMEMBERED = 4096
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
            sys_inputs=dict(given) | {"unshown": unshown(given.values())},
            format="pdf",
            pdf_standards="a-3b",
            timestamp=at_s,
        )
    finally:
        forget()


def unshown(texts: Iterable[str]) -> str:
    """Give the pattern of every character in some texts that no font here has; the sheet sets its number instead.

    One such character, an emoji in a rider's letter, and there would be no document at all.
    """
    # Control characters stand escaped in the data and are set all the same.
    candidates = _CONTROLS.union(*texts)
    found = sorted(each for each in candidates if not (each.isascii() and each.isprintable()) and not _can_be_set(each))
    return "[" + "".join(rf"\x{{{ord(each):x}}}" for each in found) + "]"


@lru_cache(_CHARACTERS_REMEMBERED)
def _can_be_set(character: str) -> bool:
    import typst

    asked = {"sys_inputs": {"it": character}, "format": "pdf", "pdf_standards": "a-3b"}
    try:
        typst.compile(b"#sys.inputs.it", font_paths=_fonts(), **asked)  # type: ignore[call-overload]
    except typst.TypstError:
        return False
    return True


def forget() -> None:
    """Set empty documents until nothing of another one is remembered: 40 MB of a frame's, for each of the last ten."""
    import typst

    for _ in range(_REMEMBERED_FOR + 1):
        typst.compile(b"", font_paths=_fonts())


@cache
def _fonts() -> "typst.Fonts":
    import typst

    return typst.Fonts(include_system_fonts=False)
