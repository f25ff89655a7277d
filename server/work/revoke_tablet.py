"""Revokes a tablet by its name: its key opens nothing any more, once the entries it still holds are seen to."""

from server.record.keeping_devices import revoke_device
from server.record.keeping_sessions import end_sessions
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import NotThere, Refusal


class NotRescued(Refusal):
    """Nobody has said that the entries still on the tablet are safe."""


def revoke_tablet(reads: Reads, device: str, now_ms: int, *, rescued: bool) -> Written[None]:
    """Revoke the tablet; raises `NotThere` for a name nobody enrolled, `NotRescued` while its entries are not safe."""
    if not any(each.id == device and each.revoked_ms is None for each in reads.devices()):
        raise NotThere(f"no tablet {device!r} is enrolled; the list shows those that are")
    if not rescued:
        raise NotRescued(
            f"{device} was not revoked: entries it has not sent would stay on it. Save its rescue file on the tablet "
            "first and say so here; if the tablet is lost, say that its entries are given up."
        )
    return Written(lambda _: None, changes=(revoke_device(device, now_ms), end_sessions(device=device)))
