"""Starts services from a forge, under strace where a fault is to be injected or every system call to be seen."""

import atexit
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import NamedTuple

from tests.browser.serving import free_port

ROOT = Path(__file__).resolve().parents[2]
_PATIENCE_S = 60.0


class Service(NamedTuple):
    """A running service."""

    pid: int
    port: int
    data: Path

    def kill(self) -> None:
        """Kill it, as nothing can that it could prepare for, and wait until it is gone."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """Ask it to end, and wait until it has."""
        self._end(signal.SIGTERM)

    def lives(self) -> bool:
        """Say whether its process is there."""
        return Path(f"/proc/{self.pid}").exists()

    def _end(self, how: signal.Signals) -> None:
        if self.lives():
            os.kill(self.pid, how)
        wait_until(lambda: not self.lives(), "the service did not end")

    @property
    def said(self) -> str:
        """What it wrote to its log."""
        return (self.data / "service.log").read_text()


class Forge:
    """Forks services."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process
        self._started: list[Service] = []

    def start(self, data: Path, *loosened: str) -> Service:
        """Start a service on a data folder and wait until it answers."""
        service = self.begin(data, *loosened)
        wait_until(lambda: answers(service.port) or not service.lives(), "the service did not answer")
        assert service.lives(), service.said
        return service

    def begin(self, data: Path, *loosened: str) -> Service:
        """Start a service and do not wait."""
        assert self._process.stdin
        assert self._process.stdout
        port = free_port()
        print(port, data, *loosened, file=self._process.stdin, flush=True)
        service = Service(int(self._process.stdout.readline()), port, data)
        self._started.append(service)
        return service

    def kill_all(self) -> None:
        """Kill what is still running."""
        for service in self._started:
            service.kill()
        self._started.clear()

    def end(self) -> None:
        """Kill what is still running, since strace waits for all it has seen begin, and let the forge end."""
        self.kill_all()
        with self._process:
            assert self._process.stdin
            self._process.stdin.close()


@contextmanager
def forging(*strace: str, output: Path | None = None) -> Iterator[Forge]:
    """Have a forge while the block runs; with arguments for strace, everything it forks runs under it."""
    if not output:
        # Nothing it forks changes it, so all proofs share the one.
        forge = _shared()
        try:
            yield forge
        finally:
            forge.kill_all()
        return
    assert shutil.which("strace"), "strace is not installed, so no fault can be injected; run: apt install strace"
    forge = _made("strace", "-f", "-qq", "-y", "-o", str(output), *strace)
    try:
        yield forge
    finally:
        forge.end()


@lru_cache(maxsize=1)
def _shared() -> Forge:
    forge = _made()
    atexit.register(forge.end)
    return forge


def _made(*under: str) -> Forge:
    command = [*under, sys.executable, "-m", "tests.faults.forge"]
    process = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout
    assert process.stdout.readline() == "ready\n"
    return Forge(process)


def answers(port: int) -> bool:
    """Say whether a service answers there."""
    connection = HTTPConnection("127.0.0.1", port, timeout=5)
    try:
        connection.request("GET", "/livez")
        return connection.getresponse().status == 200
    except (OSError, HTTPException):
        return False
    finally:
        connection.close()


def wait_until(true: Callable[[], object], trouble: str) -> None:
    """Wait until something is true, and fail with a word when it does not become so."""
    until = time.monotonic() + _PATIENCE_S
    while not true():
        assert time.monotonic() < until, trouble
        time.sleep(0.01)
