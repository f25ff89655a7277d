"""Says of a serial nobody knows which one was meant, where only capitals or spaces differ."""

from collections.abc import Container, Iterable


def no_such_serial(serial: str, known: Iterable[str], otherwise: str) -> str:
    """Name the serial and the one that was meant; where there is none, what to do.

    >>> no_such_serial(" sw-1", ["SW-1"], "see the list")
    "' sw-1' is no serial the record knows; did you mean SW-1?"
    >>> no_such_serial("SW-2", ["SW-1"], "see the list")
    "'SW-2' is no serial the record knows; see the list"
    """
    typed = "".join(serial.split()).lower()
    near = next((each for each in known if each.lower() == typed), None)
    return f"{serial!r} is no serial the record knows; {f'did you mean {near}?' if near else otherwise}"


def unknown_then(serial: str, position: int, known_now: Container[str]) -> str | None:
    """Say of a serial known by now that it was not yet at an earlier record position; none where it is not known."""
    if serial not in known_now:
        return None
    return f"{serial!r} was not known at record position {position} yet; ask for a later one, or for none to see it now"
