"""Which things occasions are asked about: all there are, or some by their names."""

from collections.abc import Collection

About = Collection[str] | None
"""The names of some things; none for everything."""


def asked_about(things: Collection[str], about: About) -> list[str]:
    """Give those of the things that are asked about, by name."""
    return sorted(things) if about is None else sorted(each for each in set(about) if each in things)


def is_asked(thing: str, about: About) -> bool:
    """Tell whether a thing is asked about."""
    return about is None or thing in about
