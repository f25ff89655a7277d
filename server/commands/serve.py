"""Serves the shop from a data folder: by HTTPS once it has a certificate, on this machine only until then."""

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from server.settings import Settings
    from server.upkeep.way_to_serve import Way


def run(arguments: list[str]) -> int:
    """Read the settings, open the record, serve until stopped."""
    asked = _asked(arguments)
    from server.record.troubles import RecordTrouble
    from server.settings import BadSetting, read_settings
    from server.upkeep.certificate import CertificateBroken
    from server.upkeep.one_server import the_one_service
    from server.upkeep.way_to_serve import NotServedOpenly, PortTaken, surely_free, way_to_serve

    try:
        settings = read_settings(asked.data.resolve())
        way = way_to_serve(settings)
        with the_one_service(settings.data_folder):
            surely_free(settings.host, settings.port)
            print(f"Strawline serves {settings.data_folder} at {way.address}\n({way.why})", flush=True)
            _serve(settings, way, "warning" if asked.quiet else settings.log_level)
    except (BadSetting, CertificateBroken, NotServedOpenly, PortTaken, RecordTrouble) as slip:
        print(slip, file=sys.stderr)
        return 2
    return 0


def _asked(arguments: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="strawline serve", description=__doc__)
    parser.add_argument("--data", type=Path, default=Path("strawline-data"), help="the data folder")
    parser.add_argument("--quiet", action="store_true", help="log warnings and errors only, whatever the settings say")
    return parser.parse_args(arguments)


def _serve(settings: "Settings", way: "Way", log_level: str) -> None:
    from server.work.uncollected import uncollected

    with uncollected():
        import uvicorn

        from server.app import build_app
        from server.upkeep.json_logs import log_as_json
        from server.upkeep.tls import choose_tls

    log_as_json(log_level)
    app = build_app(settings)
    config = uvicorn.Config(
        app,
        host=settings.host,
        port=settings.port,
        ssl_certfile=way.certificate.file if way.certificate else None,
        # Idle tablets keep their connection, so that an entry does not meet a closing one.
        timeout_keep_alive=75,
        access_log=False,
        log_config=None,
        log_level=log_level,
        server_header=False,
        # Who asks is who is connected; a sender's own word for it opens nothing.
        proxy_headers=False,
    )
    config.load()
    if config.ssl:
        choose_tls(config.ssl)
        app.state.caretaker.tend_certificate(config.ssl)
    uvicorn.Server(config).run()
