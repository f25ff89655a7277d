"""Shows every setting with its value and where that came from."""

import argparse
import json
import sys
from dataclasses import fields
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from server.settings import Settings


def run(arguments: list[str]) -> int:
    """Show them, a password in the database's address left out."""
    asked = _asked(arguments)
    from server.settings import BadSetting, read_settings

    try:
        settings = read_settings(asked.data.resolve())
    except BadSetting as bad:
        print(bad, file=sys.stderr)
        return 2
    rows = _rows(settings)
    if asked.json:
        print(json.dumps([dict(zip(("name", "value", "from"), row, strict=True)) for row in rows], indent=1))
    else:
        for name, value, source in rows:
            print(f"{name:<22} {value:<40} {source}")
    return 0


def _rows(settings: "Settings") -> list[tuple[str, str, str]]:
    names = [each.name for each in fields(settings) if each.name != "came_from"]
    return [(name, _shown(name, getattr(settings, name)), settings.came_from[name]) for name in names]


def _shown(name: str, value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if name == "mail_password":
        return "set, not shown" if value else ""
    if name == "database" and value:
        from sqlalchemy.engine import make_url

        return make_url(str(value)).render_as_string(hide_password=True)
    return str(value)


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline settings", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--json", action="store_true", help="for a program to read")
    return parser.parse_args(arguments)
