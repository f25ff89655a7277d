"""The service of the story: loaded from its folder, served by its own command, in its own process, on a real file."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import httpx

from server.record.book_of_lines import Record, now_ms
from server.work.load_folder import load_folder
from server.work.set_pin import set_pin
from server.work.shop_folder import read_shop_folder
from tests.story.log import DAY

_PATIENCE_S = 180.0
SHOP = Path(__file__).parent / "shop"
PINS = {"WEL": "314159", "LEA": "271828", "OWN": "161803"}


def load(data: Path) -> None:
    """Load the shop, its dates moved so that the packet is of today, and let its people sign in."""
    move_to_today(data / "shop")
    record = Record.open(f"sqlite:///{data / 'record.sqlite3'}", data)
    load_folder(record, read_shop_folder(data / "shop"), now_ms())
    for person, pin in PINS.items():
        set_pin(record, person, pin, now_ms())
    record.close()


def move_to_today(moved: Path) -> None:
    """Copy the shop folder with every date moved by as many days, so that its packet is of today."""
    later = DAY.date() - date(2030, 4, 2)

    def shifted(found: re.Match[str]) -> str:
        return (date.fromisoformat(found[0]) + later).isoformat()

    shutil.copytree(SHOP, moved)
    for sheet in moved.rglob("*.toml"):
        sheet.write_text(re.sub(r"2030-\d\d-\d\d", shifted, sheet.read_text()))


@contextmanager
def serving(data: Path) -> Iterator[str]:
    """Serve the data folder and give its address."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "server", "serve", "--data", str(data)]
    with (data / "service.log").open("w") as log:
        environment = os.environ | {"STRAWLINE_PORT": str(port)}
        process = subprocess.Popen(command, env=environment, stdout=log, stderr=log)
        try:
            yield _answering(f"http://127.0.0.1:{port}", data, process)
        finally:
            process.terminate()
            process.wait(_PATIENCE_S)


def _answering(address: str, data: Path, process: "subprocess.Popen[bytes]") -> str:
    until = time.monotonic() + _PATIENCE_S
    while process.poll() is None and time.monotonic() < until:
        try:
            httpx.get(address + "/sign-in", timeout=_PATIENCE_S)
        except httpx.TransportError:
            time.sleep(0.1)
        else:
            return address
    raise AssertionError((data / "service.log").read_text())


def signed_in(address: str, person: str, device: str = "desk") -> httpx.Client:
    """Give a browser in which somebody has signed in."""
    browser = httpx.Client(
        base_url=address, follow_redirects=True, timeout=_PATIENCE_S, headers={"accept": "text/html"}
    )
    answer = browser.post("/sign-in", data={"person": person, "secret": PINS[person], "device": device})
    assert answer.status_code == 200, answer.text
    return browser
