"""Reads the marks of a JPEG file, to see whether it tells the picture alone or also where, when and by what camera."""

_START, _END, _SCAN, _JFIF, _COLOUR, _ADOBE = 0xD8, 0xD9, 0xDA, 0xE0, 0xE2, 0xEE
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})
"""Marks without a length."""
_TABLES = frozenset({0xC4, 0xDB, 0xDD, *range(0xC0, 0xC4), *range(0xC5, 0xC8), *range(0xC9, 0xD0)})
_PROFILE = b"ICC_PROFILE\0"


def tells_only_the_picture(content: bytes) -> bool:
    """Tell whether a file is one JPEG from end to end, with tables and a colour profile and nothing else in it."""
    if content[:2] != bytes((0xFF, _START)):
        return False
    at = 2
    while at + 4 <= len(content) or content[at:] == bytes((0xFF, _END)):
        mark = content[at + 1]
        if content[at] != 0xFF:
            return False
        if mark == _END:
            return at + 2 == len(content)
        if mark in _ALONE:
            at += 2
            continue
        length = int.from_bytes(content[at + 2 : at + 4])
        if not _may_stand(mark, content[at + 4 : at + 2 + length]):
            return False
        at += 2 + length
        if mark == _SCAN:
            at = _after_scan(content, at)
    return False


def _may_stand(mark: int, told: bytes) -> bool:
    if mark == _JFIF:
        # Without a small picture of its own inside.
        return told[:5] == b"JFIF\0" and told[12:14] == b"\0\0"
    if mark == _COLOUR:
        return told.startswith(_PROFILE)
    return mark in _TABLES or mark in (_SCAN, _ADOBE)


def _after_scan(content: bytes, at: int) -> int:
    """Find the next mark after packed pixels, where FF 00 is a byte of the picture and FF D0 to D7 a restart."""
    while (at := content.find(b"\xff", at)) >= 0:
        if content[at + 1 : at + 2] not in _IN_A_SCAN:
            return at
        at += 2
    return len(content)


_IN_A_SCAN = frozenset(bytes((each,)) for each in (0x00, *range(0xD0, 0xD8)))
