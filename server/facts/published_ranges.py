"""The few range tables of qualification codes the program brings along, by the name records give for them."""

import tomllib
from functools import cache
from importlib.resources import files

from server.facts.coupon_range import RangeTable


@cache
def published_ranges() -> dict[str, RangeTable]:
    """Give the tables that were read in a copy, by name."""
    told = tomllib.loads((files("server.facts") / "published_ranges.toml").read_text(encoding="utf-8"))
    return {name: RangeTable(id=name, **table) for name, table in told.items()}
