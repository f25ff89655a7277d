"""Brings a data folder's record to the schema this program speaks, after a copy of it was put aside."""

import argparse
from pathlib import Path

STOPPED = "The record is as it was, and no half copy of it is left. Type it again to begin anew."


def run(arguments: list[str]) -> int:
    """Copy the file, run the steps that are missing, and say what was done; 2 where it could not be."""
    asked = _asked(arguments)
    from server.commands._telling import telling
    from server.record.schema_change import CannotChange, change_schema, surely_a_record
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.upkeep.one_server import the_one_service

    try:
        settings = read_settings(asked.data.resolve())
        surely_a_record(settings.database_url)
        with the_one_service(settings.data_folder), telling() as say:
            done = change_schema(settings.database_url, say)
    except (BadSetting, CannotChange, RecordTrouble) as slip:
        print(f"not changed: {slip}")
        return 2
    print(done)
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline migrate", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    return parser.parse_args(arguments)
