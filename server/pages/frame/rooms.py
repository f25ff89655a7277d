"""Tells in which of the screens named on top of every page somebody is, so that its name is marked there."""

_WITHIN = {
    "/desk": "open-on-shipped suspect-sets nonconformities concessions audit charts registers gate decisions",
    "/history": "entries",
    "/claims": "joint-life containments containment holds",
}
_ROOM_OF = {name: room for room, names in _WITHIN.items() for name in names.split()}


def room_of(path: str) -> str:
    """Give the address of the screen that a page belongs to.

    >>> room_of("/suspect-sets/north@2025"), room_of("/procedures/T1/B"), room_of("/")
    ('/desk', '/procedures', '/')
    """
    first = path.strip("/").partition("/")[0]
    return _ROOM_OF.get(first, f"/{first}")
