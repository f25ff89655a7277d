"""A trace is read as it happened: bytes, places, syncs, names and answers, and no call that failed."""

from tests.faults.syscalls import Acknowledged, Named, Synced, Truncated, Wrote, events, failed_at


def hexed(text: str) -> str:
    return "".join(f"\\x{byte:02x}" for byte in text.encode())


DATA = f"5<{hexed('/d/record')}>"


def test_each_call_is_read():
    """A write with its place and bytes, a cut-off, a sync, a new and a removed name."""
    lines = [
        f'71 pwrite64({DATA}, "{hexed("ab")}", 2, 4096) = 2',
        f"71 ftruncate({DATA}, 17) = 0",
        f"71 fdatasync({DATA}) = 0",
        f'71 openat(AT_FDCWD<{hexed("/x")}>, "{hexed("/d/new")}", O_RDWR|O_CREAT, 0644) = 6<{hexed("/d/new")}>',
        f'71 unlink("{hexed("/d/new")}") = 0',
    ]
    assert list(events(lines)) == [
        Wrote("/d/record", 4096, b"ab"),
        Truncated("/d/record", 17),
        Synced("/d/record"),
        Named("/d/new", there=True),
        Named("/d/new", there=False),
    ]


def test_a_call_counts_when_it_has_returned():
    """Interrupted by another thread's call it counts at its end; a short write only as far as it went."""
    lines = [
        f"71 fdatasync({DATA} <unfinished ...>",
        f'72 pwrite64({DATA}, "{hexed("abcd")}", 4, 0 <unfinished ...>',
        "71 <... fdatasync resumed>) = 0",
        "72 <... pwrite64 resumed>) = 2",
    ]
    assert list(events(lines)) == [Synced("/d/record"), Wrote("/d/record", 0, b"ab")]


def test_what_failed_did_not_happen():
    """A call that returned an error is left out."""
    lines = [
        f"71 fdatasync({DATA}) = -1 EIO (Input/output error) (INJECTED)",
        f'71 openat(AT_FDCWD<{hexed("/x")}>, "{hexed("/d/new")}", O_RDWR|O_CREAT, 0644) = -1 EACCES (no)',
    ]
    assert list(events(lines)) == []


def test_an_answer_counts_when_it_is_begun():
    """Receipts written to a socket are answers, even if the call has not returned; other writes are none."""
    body = hexed('{"receipts":[{"entry":"E"}]}')
    lines = [
        f'71 write(9<socket:[77]>, "{body}", 28 <unfinished ...>',
        f'71 write(2<{hexed("/log")}>, "{body}", 28) = 28',
        f'71 write(9<socket:[77]>, "{hexed("HTTP/1.1 200 OK")}", 15) = 15',
    ]
    assert list(events(lines)) == [Acknowledged([{"entry": "E"}])]


def test_a_call_made_to_fail_is_found_with_its_file():
    """Also where another thread's call came between its beginning and its end, which does not name the file again."""
    failed = "= -1 EIO (Input/output error) (INJECTED)"
    lines = [
        f"71    fdatasync(5</d/record>) {failed}",
        "71    fdatasync(5</d/record-wal> <unfinished ...>",
        "72    fsync(6</d/other> <unfinished ...>",
        f"71    <... fdatasync resumed>) {failed}",
        "72    <... fsync resumed>) = 0",
    ]
    assert failed_at(lines) == ["/d/record", "/d/record-wal"]
