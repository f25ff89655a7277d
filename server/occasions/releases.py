"""What a frame's last release was signed on: which tablets had not reported by then, and what came in afterwards."""

from server.facts.deciding import Permission
from server.facts.occasion_frame import ReleaseSigned
from server.occasions.frame_log import FrameLog
from server.occasions.tables import Tables
from server.occasions.timed import Timed


def release_signed(tables: Tables, frame: str, log: FrameLog) -> ReleaseSigned | None:
    """Give the last release signed for a frame; none while nobody has."""
    given = [p for p in tables.permissions_of.get(frame, ()) if p.permits == "release" and p.joint is None]
    if not given:
        return None
    last = max(given, key=_signed_ms)
    at_ms, position = _signed_ms(last), tables.registers.positions.get(f"permission:{last.id}", last.known_at)
    open_on = _open_at(log.of("opened"), position)
    return ReleaseSigned(
        permission=last.id,
        at_ms=at_ms,
        position=position,
        unheard=tuple(sorted(open_on)),
        unheard_entries=tuple(open_on[device] for device in sorted(open_on)),
        late=frozenset(
            each.entry.id
            for told in log.by_kind.values()
            for each in told
            if each.position > position and each.at.at_ms < at_ms
        ),
        accept=tables.at(tables.days.day_of(at_ms)),
    )


def _open_at(told: list[Timed], position: int) -> dict[str, str]:
    """Devices that had opened the frame and had not told, by that record position, that they closed it again."""
    open_on: dict[str, str] = {}
    for each in told:
        if each.position > position:
            continue
        if each.entry.act == "opened":
            open_on[each.entry.device] = each.entry.id
        else:
            open_on.pop(each.entry.device, None)
    return open_on


def _signed_ms(permission: Permission) -> int:
    return max(each.at for each in permission.signatures)
