"""Whether each secret, tablet and passkey at the door was put there by a sealed line, as the service does it."""

from collections.abc import Iterator

from sqlalchemy import Connection, inspect, select

from server.facts.door import DoorChange
from server.facts.moment import show_moment
from server.record.stored_rows import in_bytes
from server.record.tables.columns import CREDENTIAL, DEVICE, LINE, PASSKEY
from server.record.tables.sealed import TOLD

_SETS = {"pin": "PIN set", "password": "pass phrase set", "badge": "badge printed"}
_ENDS = {"badge": "badge taken away"}
_MEND = "it was put in or put back; set it anew at /people, and look who signed since"
Changes = list[DoorChange]


def odd_door(connection: Connection) -> Iterator[str]:
    """Name what no line tells of, and what a later line put an end to; whether a hash was exchanged it cannot tell."""
    told = _told(connection)
    for person, kind, made_ms in connection.execute(select(CREDENTIAL.person, CREDENTIAL.kind, CREDENTIAL.made_ms)):
        acts = {_SETS.get(kind), _ENDS.get(kind)}
        last = _last([each for each in told if each.person == person and each.act in acts])
        if last is None or last.act != _SETS.get(kind) or last.at != made_ms:
            yield f"the {kind} of {person}, set at {_shown(made_ms)}: {_known(last)}; {_MEND}"
    yield from _odd_tablets(connection, told)
    if not inspect(connection).has_table("passkey"):
        return
    added = {(each.person, each.at) for each in told if each.act == "passkey added"}
    for person, title, made_ms in connection.execute(select(PASSKEY.person, PASSKEY.title, PASSKEY.made_ms)):
        if (person, made_ms) not in added:
            yield f"the passkey {title!r} of {person}, added at {_shown(made_ms)}: no line tells of it; {_MEND}"


def _odd_tablets(connection: Connection, told: Changes) -> Iterator[str]:
    for name, enrolled_ms, revoked_ms in connection.execute(select(DEVICE.id, DEVICE.enrolled_ms, DEVICE.revoked_ms)):
        last = _last([each for each in told if each.tablet == name])
        since = enrolled_ms if revoked_ms is None else revoked_ms
        wanted = "tablet enrolled" if revoked_ms is None else "tablet revoked"
        if last is None or (last.act, last.at) != (wanted, since):
            yield f"the tablet {name}, {wanted.split()[1]} at {_shown(since)}: {_known(last)}; revoke it at /tablets"


def _told(connection: Connection) -> Changes:
    asked = select(LINE.body).where(TOLD, LINE.kind == "door change", LINE.position > 0).order_by(LINE.position)
    found = []
    for body in connection.execute(asked).scalars():
        try:
            found.append(DoorChange.model_validate_json(in_bytes(body)))
        except ValueError:
            # A line whose bytes were altered is named where the lines are gone through.
            continue
    return found


def _last(told: Changes) -> DoorChange | None:
    return told[-1] if told else None


def _known(last: DoorChange | None) -> str:
    return f"the last line about it is '{last.act}' of {show_moment(last.at)}" if last else "no line tells of it"


def _shown(moment_ms: object) -> str:
    return show_moment(moment_ms) if isinstance(moment_ms, int) else repr(moment_ms)
