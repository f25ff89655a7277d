"""Writes the JSON Schemas by which an editor completes procedure and design files."""

import argparse
import json
from pathlib import Path

from server.plan.schema import design_schema
from server.procedures.schema import json_schema


def run(arguments: list[str]) -> int:
    """Write both schemas into a folder that is there."""
    folder = _asked(arguments).folder
    if not folder.is_dir():
        print(f"schema: {str(folder)!r} is no folder; name one that is there, such as docs")
        return 2
    for name, text in schema_files().items():
        (folder / name).write_text(text, encoding="utf-8")
        print(f"wrote {folder / name}")
    return 0


def schema_files() -> dict[str, str]:
    """The text of each schema file by its name."""
    schemas = {"procedure.schema.json": json_schema(), "design.schema.json": design_schema()}
    return {name: json.dumps(schema, indent=2, ensure_ascii=False) + "\n" for name, schema in schemas.items()}


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline schema", description=__doc__)
    parser.add_argument("folder", type=Path, nargs="?", default=Path("docs"), help="where to write them")
    return parser.parse_args(arguments)
