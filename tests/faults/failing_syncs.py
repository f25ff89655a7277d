"""One sync fails, and it is watched whether the service says so, goes on all the same, or loses anything."""

from collections.abc import Callable, Sequence
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from server.record.record_check import check_record
from tests.api.asking import delivery
from tests.faults.records import another, make_empty
from tests.faults.senders import Answered, get, post, send
from tests.faults.serving import Forge, Service, forging
from tests.faults.stored import lost_of, read_stored
from tests.faults.syscalls import failed_at
from tests.record.fixtures import url_of

AT_SYNC = 40
"""The writer's sync that fails; how many of them are spent beforehand says which of the record's own that is."""

_ENTRIES = 60
_FAILING = ("-e", "trace=fdatasync,fsync", "-e", f"inject=fdatasync,fsync:error=EIO:when={AT_SYNC}")


class Failure(NamedTuple):
    """One failed sync: of which file, whether somebody was told, whether taking stopped, and what is wrong after."""

    file: str
    told: bool
    stopped: bool
    acknowledged: int
    lost: int
    odd: int


def fail_syncs(
    runs: int, *loosened: str, first: int = 0, seen: Callable[[Sequence[Failure]], bool] = bool
) -> list[Failure]:
    """Let one sync of the writer fail in each of so many services: its first, its second and so on, and round again.

    Which file that sync is of depends on what the writer had to do by then, so further services follow, at most four
    for each that was asked, as long as what is to be seen among the failures was not.
    """
    with TemporaryDirectory() as name:
        empty = make_empty(Path(name) / "empty")
        with forging() as forge:
            failures: list[Failure] = []
            for before in islice(cycle(range(AT_SYNC - 1, -1, -1)), first, first + 5 * runs):
                if len(failures) >= runs and seen(failures):
                    break
                failures.append(_one(forge, another(empty), before, loosened))
            return failures


class FolderFailure(NamedTuple):
    """A sync of the folder failed at the start: whether it was told, and what the service answered then."""

    told: bool
    status: int


SQLITES, OURS = "fdatasync", "fsync"
"""SQLite syncs the folder by the one call when it makes the log, and the record itself by the other."""


def of_both_files(failures: Sequence[Failure]) -> bool:
    """Say whether a sync of the log failed and one of the file."""
    return {each.file for each in failures} == {"record.sqlite3-wal", "record.sqlite3"}


def fail_sync_of_folder(call: str) -> FolderFailure:
    """Let the first sync of the data folder by this call fail while a service starts."""
    with TemporaryDirectory() as name:
        data = make_empty(Path(name) / "empty")
        inject = ("-P", str(data), "-e", f"trace={call}", "-e", f"inject={call}:error=EIO:when=1")
        with forging() as forge:
            service = forge.start(data, strace=inject)
            assert _failed_file(service) == data.name
            status = post(service.port, delivery(1))[0]
            return FolderFailure(get(service.port, "/readyz")[0] == 503, status)


def _one(forge: Forge, data: Path, before: int, loosened: tuple[str, ...]) -> Failure:
    answered = Answered()
    service = forge.start(data, f"syncs_before:{before}", *loosened, strace=_FAILING)
    send(service.port, list(range(_ENTRIES)), answered)
    file = _failed_file(service)
    told = any(status == 503 for status, _ in answered.refusals) or get(service.port, "/readyz")[0] == 503
    stopped = _refuses(service)
    service.kill()
    lost = lost_of(answered.receipts, read_stored(data / "record.sqlite3"))
    odd = len(check_record(url_of(data / "record.sqlite3"), data).odd)
    return Failure(file, told, stopped, len(answered.receipts), len(lost.missing) + len(lost.other), odd)


def _failed_file(service: Service) -> str:
    failed = [Path(place).name for place in failed_at(service.trace.read_text().splitlines())]
    assert len(failed) == 1, f"{len(failed)} syncs failed instead of one"
    return failed[0]


def _refuses(service: Service) -> bool:
    return post(service.port, delivery(10_000))[0] == 503
