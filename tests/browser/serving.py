"""Serves the real application on a port of this machine while a test runs."""

import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from fastapi import FastAPI

from server.app import build_app
from server.record.book_of_lines import Record
from server.settings import Settings
from server.upkeep.tls import choose_tls

_LONGEST_WAIT_S = 180


def free_port() -> int:
    """Find a port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def served(
    record: Record,
    folder: Path,
    port: int,
    around: Callable[[FastAPI], object] | None = None,
    certificate: Path | None = None,
) -> Iterator[str]:
    """Serve until the block ends, whatever happens in it; `around` wraps the application, to lose answers.

    With a certificate it speaks HTTPS, as `strawline serve` does where one was made.
    """
    app = build_app(Settings(data_folder=folder, session_idle_minutes=600), record)
    shown = around(app) if around else app
    # Its own handlers for the log would outlive it in this process, and say twice what ours say.
    config = uvicorn.Config(
        shown,  # type: ignore[arg-type]
        host="127.0.0.1",
        port=port,
        log_level="error",
        log_config=None,
        ssl_certfile=certificate,
    )
    config.load()
    if config.ssl:
        choose_tls(config.ssl)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        _wait_until(lambda: server.started)
        yield f"{'https' if certificate else 'http'}://127.0.0.1:{port}"
    finally:
        server.should_exit = True
        thread.join(_LONGEST_WAIT_S)


def _wait_until(true: Callable[[], bool]) -> None:
    until = time.monotonic() + _LONGEST_WAIT_S
    while not true():
        if time.monotonic() > until:
            raise TimeoutError("the application did not start")
        time.sleep(0.02)
