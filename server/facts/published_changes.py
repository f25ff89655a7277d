"""The essential variables the program brings along, by the name records give for the table."""

import tomllib
from functools import cache
from importlib.resources import files

from server.facts.change_table import ChangeTable


@cache
def published_changes() -> dict[str, ChangeTable]:
    """Give the tables whose rows were read in a copy, by name."""
    told = tomllib.loads((files("server.facts") / "published_changes.toml").read_text(encoding="utf-8"))
    return {name: ChangeTable(id=name, **table) for name, table in told.items()}
