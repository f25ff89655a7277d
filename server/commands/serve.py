"""Serves the shop from a data folder, on this machine unless told otherwise."""

import argparse
from pathlib import Path


def run(arguments: list[str]) -> int:
    """Read the settings, open the record, serve until stopped."""
    asked = _asked(arguments)
    from server.settings import BadSetting, read_settings

    try:
        settings = read_settings(asked.data.resolve())
    except BadSetting as bad:
        print(bad)
        return 2
    asked.data.mkdir(parents=True, exist_ok=True)
    import uvicorn

    from server.app import build_app

    print(f"Strawline serves {settings.data_folder} at http://{settings.host}:{settings.port}")
    # Idle tablets keep their connection, so that an entry does not meet a closing one.
    uvicorn.run(
        build_app(settings),
        host=settings.host,
        port=settings.port,
        timeout_keep_alive=75,
        access_log=False,
        log_level="warning",
        server_header=False,
    )
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline serve", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    return parser.parse_args(arguments)
