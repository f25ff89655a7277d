"""Starts services from a forge, under strace where a fault is to be injected or every system call to be seen."""

import atexit
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import NamedTuple

from tests.browser.serving import free_port

ROOT = Path(__file__).resolve().parents[2]
# What is slow is no fault; whoever waits in vain may wait long.
_PATIENCE_S = 180.0
_NO_STRACE = "strace is not installed, so no fault can be injected; run: apt install strace"


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
        """Say whether its process is there, and not only waits to be cleared away.

        Killed in a sync, a thread may outlive the first one, and what the process holds is held until the last ends.
        """
        process = Path(f"/proc/{self.pid}")
        try:
            told = (process / "stat").read_text()
            return told.rpartition(")")[2].split()[0] not in "ZX" or len(list((process / "task").iterdir())) > 1
        except (FileNotFoundError, ProcessLookupError):
            return False

    def _end(self, how: signal.Signals) -> None:
        if self.lives():
            os.kill(self.pid, how)
        wait_until(lambda: not self.lives(), "the service did not end")

    @property
    def trace(self) -> Path:
        """What strace writes of it, where it runs under strace."""
        return self.data.with_name(f"{self.data.name}.trace")

    def watched_by(self) -> int:
        """Give the process id of the strace it runs under, 0 if none."""
        told = Path(f"/proc/{self.pid}/status").read_text()
        return int(told.partition("TracerPid:")[2].split()[0])

    def let_go(self) -> None:
        """End the fault: strace leaves it, and it goes on as if it had never been watched."""
        os.kill(self.watched_by(), signal.SIGTERM)
        wait_until(lambda: not self.watched_by(), "strace did not leave the service")

    @property
    def said(self) -> str:
        """What it wrote to its log."""
        return (self.data / "service.log").read_text()


class Forge:
    """Forks services."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process
        self._started: list[Service] = []

    def start(self, data: Path, *loosened: str, strace: Sequence[str] = ()) -> Service:
        """Start a service on a data folder, with arguments for strace under that, and wait until it answers."""
        service = self.begin(data, *loosened, strace=strace)
        wait_until(lambda: answers(service.port) or not service.lives(), "the service did not answer")
        assert service.lives(), service.said
        return service

    def begin(self, data: Path, *loosened: str, strace: Sequence[str] = ()) -> Service:
        """Start a service and do not wait."""
        assert not strace or shutil.which("strace"), _NO_STRACE
        assert self._process.stdin
        assert self._process.stdout
        port = free_port()
        order = {"port": port, "data": str(data), "loosened": loosened, "strace": strace}
        print(json.dumps(order), file=self._process.stdin, flush=True)
        service = Service(int(self._process.stdout.readline()), port, data)
        self._started.append(service)
        return service

    def kill_all(self) -> None:
        """Kill what is still running."""
        for service in self._started:
            service.kill()
        self._started.clear()

    def end(self) -> None:
        """Kill what is still running, and let the forge end."""
        self.kill_all()
        with self._process:
            assert self._process.stdin
            self._process.stdin.close()


@contextmanager
def forging() -> Iterator[Forge]:
    """Have a forge while the block runs; nothing it forks changes it, so all proofs share the one."""
    forge = _shared()
    try:
        yield forge
    finally:
        forge.kill_all()


@lru_cache(maxsize=1)
def _shared() -> Forge:
    command = [sys.executable, "-m", "tests.faults.forge"]
    process = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout
    assert process.stdout.readline() == "ready\n"
    forge = Forge(process)
    atexit.register(forge.end)
    return forge


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
