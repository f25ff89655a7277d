"""The few composition tables the program brings along, by class, grade and the names metals go by."""

import tomllib
from functools import cache
from importlib.resources import files

from server.facts.materials import CompositionLimits


def published(name: str) -> CompositionLimits | None:
    """Give the limits published for a filler class or a metal; none when its table was never read."""
    return _tables().get(name)


@cache
def _tables() -> dict[str, CompositionLimits]:
    told = tomllib.loads((files("server.facts") / "published_compositions.toml").read_text(encoding="utf-8"))
    found: dict[str, CompositionLimits] = {}
    for key, table in told.items():
        for name in (key, *table.get("also", ())):
            found[name] = CompositionLimits(id=name, edition=table["edition"], limits=table["limits"])
    return found
