"""A backup made while a service takes entries is whole, and one flipped bit anywhere in it is found by the drill."""

import random
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from server.upkeep.drill import drill
from tests.faults.records import another
from tests.faults.senders import Answered, send_at_once
from tests.faults.serving import ROOT, forging
from tests.faults.stored import lost_of, read_stored


@pytest.fixture(scope="module")
def backup(empty: Path) -> Path:
    """A backup made by its own command while three tablets send; everything answered before it began is in it."""
    data, answered = another(empty), Answered()
    with forging() as forge:
        service = forge.start(data)
        send_at_once(service.port, 3, 20, answered)
        before = dict(answered.receipts)
        sending = threading.Thread(target=send_at_once, args=(service.port, 3, 60, answered, 10_000))
        sending.start()
        command = [sys.executable, "-m", "server", "backup", "--data", str(data)]
        subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
        sending.join()
        service.stop()
    (made,) = (data / "backups").iterdir()
    assert len(answered.receipts) == 240
    assert lost_of(before, read_stored(made / "record.sqlite3")) == ([], [])
    return made


def not_found(backup: Path, flips: int, seed: int) -> list[tuple[str, int]]:
    """Flip one bit at a time, anywhere in any file, and give the flips the drill did not find."""
    dice = random.Random(seed)
    files = sorted(path for path in backup.rglob("*") if path.is_file())
    passed = []
    for number in range(flips):
        file = files[number % len(files)]
        whole, at = file.read_bytes(), dice.randrange(file.stat().st_size)
        file.write_bytes(whole[:at] + bytes([whole[at] ^ 1 << dice.randrange(8)]) + whole[at + 1 :])
        if not drill(backup).odd:
            passed.append((file.name, at))
        file.write_bytes(whole)
    return passed


def test_whole_it_passes(backup: Path):
    """Control: as it was made, it passes the drill."""
    found = drill(backup)
    assert found.odd == ()
    assert found.lines > 60


def test_a_flipped_bit_is_found(backup: Path):
    """Of 100 flips over all its files none passes."""
    assert not_found(backup, 100, 1) == []


@pytest.mark.long
def test_none_of_two_thousand_flipped_bits_passes(backup: Path):
    """The same with 2,000."""
    assert not_found(backup, 2000, 2) == []
