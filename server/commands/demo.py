"""Serve an invented shop with its history; --full tells all eighteen months of it."""

import argparse
import sys
from pathlib import Path

SERVES = ("uvicorn", "server.app")


def run(arguments: list[str]) -> int:
    """Make the shop where it does not stand yet, say who may sign in and where to look, and serve."""
    asked = _asked(arguments)
    from server.commands._demo_folder import NotWritten
    from server.commands._demo_shop import NotADemo, make_stand, tour
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.upkeep.way_to_serve import PortTaken, surely_free

    which, serves = "full" if asked.full else "small", () if asked.only_make else SERVES
    try:
        if not asked.only_make:
            settings = read_settings(asked.data.resolve())
            surely_free(settings.host, settings.port)
        made = make_stand(asked.data.resolve(), which, _say, serves)
    except (BadSetting, NotADemo, NotWritten, PortTaken, RecordTrouble) as refused:
        print(refused, file=sys.stderr)
        return 2
    print(tour(made))
    if asked.only_make:
        return 0
    from server.commands.serve import run as serve

    return serve(["--data", str(asked.data), "--quiet"])


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline demo", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path(".strawline-demo"), help="the demo's own data folder")
    parser.add_argument("--full", action="store_true", help="the whole history; takes a minute or two to make")
    parser.add_argument("--only-make", action="store_true", help="make the shop and do not serve it")
    return parser.parse_args(arguments)


def _say(doing: str, done: int = 0, of: int = 0) -> None:
    """Tell how far it is: one line that is written over where a person looks on, one line per step otherwise."""
    if sys.stderr.isatty():
        share = f" {100 * done // of} %" if of else ""
        print(f"\r\x1b[K{doing}{share}", end="\n" if of and done == of else "", file=sys.stderr, flush=True)
    elif done == of:
        print(doing, file=sys.stderr, flush=True)
