"""A service dies in the very middle of a sync: what it had answered is there, and what it had not may be sent again."""

import random
from collections.abc import Callable, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.record_check import check_record
from tests.api.asking import delivery
from tests.faults.failing_syncs import AT_SYNC
from tests.faults.records import another, make_empty
from tests.faults.senders import Answered, post, send
from tests.faults.serving import Forge, forging, wait_until
from tests.faults.stored import lost_of, read_stored
from tests.record.fixtures import url_of

_ENTRIES = 60
_KILLING = ("-e", "trace=fdatasync", "-e", f"inject=fdatasync:signal=KILL:when={AT_SYNC}")


class Death(NamedTuple):
    """One death: what was answered by then, stored all the same, lost, doubled by sending again, and not holding."""

    acknowledged: int
    unanswered_but_stored: int
    lost: int
    doubled: int
    odd: int


def die_in_syncs(
    runs: int, *loosened: str, seed: int = 20250318, seen: Callable[[Sequence[Death]], bool] = bool
) -> list[Death]:
    """Let so many services die at their writer's n-th sync each.

    Whether that sync keeps an entry, what was judged or a move of the log depends on how far the judge was, so further
    services follow, at most nine for each that was asked, as long as what is to be seen among the deaths was not.
    """
    dice, deaths = random.Random(seed), list[Death]()
    with TemporaryDirectory() as name, forging() as forge:
        empty = make_empty(Path(name) / "empty")
        while len(deaths) < runs or (not seen(deaths) and len(deaths) < 10 * runs):
            deaths.append(_one(forge, another(empty), dice.randrange(10, AT_SYNC), loosened))
    return deaths


def _one(forge: Forge, data: Path, before: int, loosened: tuple[str, ...]) -> Death:
    answered = Answered()
    service = forge.start(data, f"syncs_before:{before}", "short_log", *loosened, strace=_KILLING)
    send(service.port, list(range(_ENTRIES)), answered)
    wait_until(lambda: not service.lives(), "the service did not die")
    first = read_stored(data / "record.sqlite3")
    lost = lost_of(answered.receipts, first)
    again = forge.start(data, *loosened)
    # The tablet knows of no answer, so it sends again, from the first one that was not answered.
    status, told = post(again.port, *(delivery(n, note=f"n{n}") for n in range(len(answered.receipts), _ENTRIES)))
    assert status == 200
    answered.take(told["receipts"])
    again.stop()
    file = data / "record.sqlite3"
    second = read_stored(file)
    return Death(
        acknowledged=_ENTRIES - len(told["receipts"]),
        unanswered_but_stored=len(first.lines) - (_ENTRIES - len(told["receipts"])),
        lost=len(lost.missing) + len(lost.other) + len(lost_of(answered.receipts, second).missing),
        doubled=len(second.doubled) + len(answered.twice) + abs(len(second.lines) - _ENTRIES),
        odd=len(check_record(url_of(file), data).odd),
    )
