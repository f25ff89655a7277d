"""The disk is full, in four ways: what the service answers then, whether it can be read, and how it goes on."""

import resource
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from itertools import count, takewhile
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.record_check import check_record
from tests.api.asking import delivery
from tests.faults.records import another, make_empty
from tests.faults.senders import Answered, get, post, send
from tests.faults.serving import Service, forging
from tests.faults.stored import lost_of, read_stored
from tests.record.fixtures import url_of

_BIG = "x" * 3000
_MOST = 400
_REFUSED = 10


class Full(NamedTuple):
    """What happened while the disk was full: the answer, whether reading went on, and how it was afterwards."""

    status: int
    detail: str
    ready_meanwhile: bool
    readable_meanwhile: bool
    refused_with_room: int
    acknowledged: int
    lost: int
    odd: int


@contextmanager
def served(*loosened: str, fault: str = "", only_of_file: bool = False) -> Iterator[Service]:
    """Serve a new record; a fault is injected into its writes, into all of them or only into those of its file."""
    with TemporaryDirectory() as name:
        data = another(make_empty(Path(name) / "empty"))
        of_file = ("-P", str(data / "record.sqlite3")) if only_of_file else ()
        strace = (*of_file, "-e", "trace=pwrite64", "-e", f"inject=pwrite64:{fault}") if fault else ()
        with forging() as forge:
            _let_grow(data, 1_000_000)
            service = forge.start(data, *loosened, strace=strace)
            try:
                yield service
            finally:
                service.kill()


def fill(service: Service, make_room: Callable[[], object]) -> Full:
    """Send until the disk is full, look around, make room, and send until it is taken again."""
    answered = Answered()
    send(service.port, list(range(_MOST)), answered, note=_BIG)
    assert answered.refusals, "the disk did not become full"
    status, told = answered.refusals[0]
    ready, readable = _ready_when_refused(service, answered), _readable(service)
    make_room()
    sent = (post(service.port, delivery(_MOST, note=_BIG))[0] for _ in range(_MOST))
    refused = len(list(takewhile(lambda status: status != 200, sent)))
    send(service.port, list(range(_MOST + 1, _MOST + 5)), answered, note=_BIG)
    assert len(answered.refusals) == 1
    assert get(service.port, "/readyz")[0] == 200
    return _counted(service, answered, Full(status, told["detail"], ready, readable, refused, 0, 0, 0))


def pages_run_out() -> Full:
    """The file may not grow any further, by SQLite's own limit."""
    with served("pages") as service:
        send(service.port, list(range(1000, 1010)), Answered(), note=_BIG)
        _let_grow(service.data, _pages(service.data / "record.sqlite3") + 30)
        return fill(service, lambda: _let_grow(service.data, 1_000_000))


def process_is_limited() -> Full:
    """No file of the process may grow beyond a size, which fails as a write that went wrong and not as a full disk."""
    with served() as service:
        send(service.port, list(range(1000, 1010)), Answered(), note=_BIG)
        log = service.data / "record.sqlite3-wal"
        whatever = resource.RLIM_INFINITY
        resource.prlimit(service.pid, resource.RLIMIT_FSIZE, (log.stat().st_size + 200_000, whatever))
        return fill(service, lambda: resource.prlimit(service.pid, resource.RLIMIT_FSIZE, (whatever, whatever)))


def writes_find_no_room() -> Full:
    """The system answers every write with ENOSPC from some one on, and then none any more."""
    with served(fault="error=ENOSPC:when=600+") as service:
        return fill(service, service.let_go)


class Swallowed(NamedTuple):
    """A service that tells nobody of the full disk: how often it refused, and how much of what it answered is lost."""

    refused: int
    acknowledged: int
    lost: int


def nobody_is_told() -> Swallowed:
    """The process is limited again, and its service answers as if everything had been kept."""
    answered = Answered()
    with served("swallowing") as service:
        log = service.data / "record.sqlite3-wal"
        send(service.port, list(range(1000, 1010)), answered, note=_BIG)
        resource.prlimit(service.pid, resource.RLIMIT_FSIZE, (log.stat().st_size + 200_000, resource.RLIM_INFINITY))
        send(service.port, list(range(100)), answered, note=_BIG)
        lost = lost_of(answered.receipts, read_stored(service.data / "record.sqlite3"))
    return Swallowed(len(answered.refusals), len(answered.receipts), len(lost.missing) + len(lost.other))


class NotMoved(NamedTuple):
    """The log could not be moved into the file for a while: entries were taken all the same, and it was moved later."""

    refused: int
    no_room: float
    moved_bytes: int
    lost: int
    odd: int


def file_finds_no_room() -> NotMoved:
    """Only the record's file itself finds no room, while the write-ahead log beside it does."""
    answered = Answered()
    with served("short_log", fault="error=ENOSPC:when=1..6", only_of_file=True) as service:
        file = service.data / "record.sqlite3"
        before = file.stat().st_size
        send(service.port, list(range(150)), answered, together=3, note=_BIG)
        found = _counted(service, answered, Full(0, "", True, True, 0, 0, 0, 0))
        text = get(service.port, "/metrics")[1].decode()
        told = dict(line.rsplit(" ", 1) for line in text.splitlines() if line and line[0] != "#")
        # How long the log is says little: while anybody reads it is emptied, but not cut off.
        moved = file.stat().st_size - before
        return NotMoved(len(answered.refusals), float(told["strawline_no_room_total"]), moved, found.lost, found.odd)


def _counted(service: Service, answered: Answered, found: Full) -> Full:
    file = service.data / "record.sqlite3"
    lost = lost_of(answered.receipts, read_stored(file))
    odd = check_record(url_of(file), service.data).odd
    return found._replace(acknowledged=len(answered.receipts), lost=len(lost.missing) + len(lost.other), odd=len(odd))


def _ready_when_refused(service: Service, answered: Answered) -> bool:
    """Say whether it calls itself ready right after it refused an entry, each time of several.

    What the judge keeps meanwhile may be small enough for the room there still is, and tells that there is some; so may
    be an entry that needs fewer pages than the first one refused, and is kept like any.
    """
    looked, ready = Answered(), list[bool]()
    for number in count(2 * _MOST):
        if not send(service.port, [number], looked, note=_BIG):
            ready.append(get(service.port, "/readyz")[0] == 200)
        if len(ready) == _REFUSED:
            break
    answered.take(list(looked.receipts.values()))
    assert [status for status, _ in looked.refusals] == [507] * _REFUSED
    return all(ready)


def _readable(service: Service) -> bool:
    return [get(service.port, path)[0] for path in ("/livez", "/api/lines/TAB-1:b1:0", "/sign-in")] == [200] * 3


def _let_grow(data: Path, pages: int) -> None:
    """Set the limit at one stroke: the service may read it at any moment, also for what it judges meanwhile."""
    new = data / "pages.new"
    new.write_text(str(pages))
    new.replace(data / "pages")


def _pages(file: Path) -> int:
    with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as connection:
        return int(connection.execute("PRAGMA page_count").fetchone()[0])
