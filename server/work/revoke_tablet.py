"""Revokes a tablet by its name: its key opens nothing any more, once the entries it still holds are seen to."""

from server.record.keeping_devices import revoke_device
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.door_told import BY_COMMAND, Hand, door_line
from server.work.refusal import NotThere, Refusal


class NotRescued(Refusal):
    """Nobody has said that the entries still on the tablet are safe."""


def revoke_tablet(
    reads: Reads, device: str, now_ms: int, *, entries: str = "", hand: Hand = BY_COMMAND
) -> Written[None]:
    """Revoke the tablet; `entries` says what became of those it still held.

    Raises `NotThere` for a name nobody enrolled, `NotRescued` while nobody has said that.
    """
    known = [each for each in reads.devices() if each.id == device]
    if known and all(each.revoked_ms is not None for each in known):
        raise NotThere(f"{device} is revoked already, and its key opens nothing; nothing was done a second time")
    if not known:
        raise NotThere(f"no tablet {device!r} is enrolled; the list shows those that are")
    if not entries:
        raise NotRescued(
            f"{device} was not revoked: entries it has not sent would stay on it. Save its rescue file on the tablet "
            "first and say so here; if the tablet is lost, say that its entries are given up."
        )
    told = door_line("tablet revoked", hand, now_ms, tablet=device, words=f"unsent entries: {entries}")
    return Written(lambda _: None, lines=(told,), changes=(revoke_device(device, now_ms), end_sessions(device=device)))
