"""Power is cut: one real service is traced while it takes entries, and every image drawn from the trace is opened."""

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.record_check import check_record
from tests.faults.power import images
from tests.faults.records import another
from tests.faults.senders import Answered, send_at_once
from tests.faults.serving import forging
from tests.faults.stored import lost_of, read_stored
from tests.faults.syscalls import TRACED, Event, events_in
from tests.record.fixtures import url_of

_RECHECK_EACH = 25


class Traced(NamedTuple):
    """What a service did: the folder as it was before, the events, and how many entries it answered for."""

    before: Path
    happened: list[Event]
    acknowledged: int


class Cuts(NamedTuple):
    """How many images were opened, and how many of them lost something, the most lost, unsound or not holding."""

    images: int
    losing: int
    most_lost: int
    unsound: int
    odd: int


def traced_service(empty: Path, *loosened: str, tablets: int = 4, each: int = 60) -> Traced:
    """Trace a service from its start to its orderly end while several tablets send."""
    before, answered = another(empty), Answered()
    data = another(empty)
    with forging() as forge:
        service = forge.start(data, *loosened, strace=TRACED)
        send_at_once(service.port, tablets, each, answered)
        service.stop()
    happened = events_in(service.trace, data)
    service.trace.unlink()
    assert len(answered.receipts) == tablets * each
    return Traced(before, [_moved(event, data, before) for event in happened], len(answered.receipts))


def cut_power(traced: Traced, count: int, seed: int = 20250318) -> Cuts:
    """Open so many images, and count what is wrong with them."""
    losing, most_lost, unsound, odd, opened = 0, 0, 0, 0, 0
    for image in images(traced.before, traced.happened, count, seed):
        with TemporaryDirectory() as name:
            file = Path(name) / "record.sqlite3"
            image.put(Path(name))
            stored = read_stored(file)
            lost = lost_of(image.receipts, stored)
            opened += 1
            unsound += not stored.sound
            losing += bool(lost.missing or lost.other or stored.doubled)
            most_lost = max(most_lost, len(lost.missing) + len(lost.other))
            if opened % _RECHECK_EACH == 0 and stored.sound:
                odd += bool(check_record(url_of(file), Path(name)).odd)
    return Cuts(opened, losing, most_lost, unsound, odd)


def forget(traced: Traced) -> None:
    """Let go of the folder a trace began with."""
    shutil.rmtree(traced.before)


def _moved(event: Event, data: Path, before: Path) -> Event:
    path = getattr(event, "path", None)
    return event if path is None else event._replace(path=path.replace(str(data), str(before)))  # type: ignore[call-arg]
