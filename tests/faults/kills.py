"""A service is killed again and again while tablets send, and sent anew what was not answered."""

import os
import random
import signal
import threading
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.record_check import check_record
from tests.faults.records import another, make_empty
from tests.faults.senders import Answered, send
from tests.faults.serving import Forge, Service, forging, wait_until
from tests.faults.stored import lost_of, read_stored
from tests.record.fixtures import url_of

_TABLETS = 3
_FAR = 1_000_000
_MOST_ANSWERED = 16


class Kills(NamedTuple):
    """How often it was killed, what was answered, and what of that is lost, stored twice or does not hold."""

    kills: int
    acknowledged: int
    lost: int
    doubled: int
    sent_again: int
    odd: int
    seconds: float


class _Tablet:
    """Sends its own numbers in their order, and those that were not answered again."""

    def __init__(self, number: int) -> None:
        self.answered = Answered()
        self._first = number * _FAR

    def send(self, port: int) -> None:
        done = len(self.answered.receipts)
        send(port, list(range(self._first + done, self._first + done + 5000)), self.answered, together=2)


def kill_often(kills: int, *loosened: str, seed: int = 20250318) -> Kills:
    """Kill a service so often, one time in five while it is still starting."""
    began, dice = time.monotonic(), random.Random(seed)
    tablets = [_Tablet(number) for number in range(_TABLETS)]
    with TemporaryDirectory() as name, forging() as forge:
        data = another(make_empty(Path(name) / "empty"))
        for round_number in range(kills):
            if round_number % 5 == 4:
                _kill_starting(forge, data, dice, loosened)
            else:
                _kill_at_work(forge.start(data, *loosened), tablets, dice)
        return _counted(kills, tablets, data, time.monotonic() - began)


def _kill_starting(forge: Forge, data: Path, dice: random.Random, loosened: tuple[str, ...]) -> None:
    service = forge.begin(data, *loosened)
    time.sleep(dice.uniform(0.0, 0.3))
    service.kill()


def _kill_at_work(service: Service, tablets: list[_Tablet], dice: random.Random) -> None:
    sending = [threading.Thread(target=tablet.send, args=(service.port,)) for tablet in tablets]
    enough = _acknowledged(tablets) + dice.randrange(1, _MOST_ANSWERED)
    for thread in sending:
        thread.start()
    # Counted, not timed: a slow machine is killed after as many answers as a fast one.
    wait_until(lambda: _acknowledged(tablets) >= enough, "too few were answered")
    time.sleep(dice.uniform(0.0, 0.03))
    # Not waited for between the two, so that it dies in the middle of whatever it is at.
    os.kill(service.pid, signal.SIGKILL)
    wait_until(lambda: not service.lives(), "the service did not end")
    for thread in sending:
        thread.join()


def _acknowledged(tablets: list[_Tablet]) -> int:
    return sum(len(tablet.answered.receipts) for tablet in tablets)


def _counted(kills: int, tablets: list[_Tablet], data: Path, seconds: float) -> Kills:
    file = data / "record.sqlite3"
    stored = read_stored(file)
    assert stored.sound
    lost = [lost_of(tablet.answered.receipts, stored) for tablet in tablets]
    return Kills(
        kills=kills,
        acknowledged=_acknowledged(tablets),
        lost=sum(len(each.missing) + len(each.other) for each in lost),
        doubled=len(stored.doubled) + sum(len(tablet.answered.twice) for tablet in tablets),
        sent_again=sum(tablet.answered.broken_off for tablet in tablets),
        odd=len(check_record(url_of(file), data).odd),
        seconds=seconds,
    )
