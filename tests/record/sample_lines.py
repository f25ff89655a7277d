"""Entries and register lines of an invented bench, as a device or a shop folder would tell them."""

from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.log import LOG_ENTRY
from server.facts.register_line import REGISTER_LINE
from server.record.entry_lines import entry_line
from server.record.lines import NewLine
from server.record.register_lines import register_line

FRAME = "F-1"
DEVICE = "TAB-1"
RECEIVED = 1_742_301_600_000
BEAD: dict[str, Any] = {"line": "T-1", "result": "failed"}
OXYGEN = {"value": "41", "unit": "ppm", "how": "read", "by": "PA-1"}


def entry_told(number: int, kind: str = "pass", **further: Any) -> dict[str, Any]:
    """What a device writes down; a value of None leaves the field out."""
    told: dict[str, Any] = {
        "kind": kind,
        "id": f"{DEVICE}:b1:{number}",
        "device": DEVICE,
        "boot": "b1",
        "seq": number,
        "mono_ms": 1000 * number,
        "device_time": "2025-03-18T12:38:05.000Z",
        "happened": "2025-03-18T12:38:05.000Z",
        "who": "P1",
    }
    if kind == "pass":
        told |= {"frame": FRAME, "joint": "J1", "run": "root", "torch_line": "T-1", "values": {"oxygen": OXYGEN}}
    return {name: value for name, value in (told | further).items() if value is not None}


def entry_bytes(number: int, kind: str = "pass", **further: Any) -> bytes:
    """The same as the canonical line that is sent."""
    return canonical_line(entry_told(number, kind, **further))


def new_entry(number: int, kind: str = "pass", *, received_ms: int = RECEIVED, **further: Any) -> NewLine:
    """The same as a line on its way into the record."""
    body = entry_bytes(number, kind, **further)
    entry = LOG_ENTRY.validate_json(body)
    sent_ms = received_ms - 200
    return entry_line(entry, body, device=DEVICE, delivery=entry.id, received_ms=received_ms, sent_ms=sent_ms)


def new_register(told: dict[str, Any], received_ms: int = RECEIVED) -> NewLine:
    """A register line as a shop folder tells it."""
    return register_line(REGISTER_LINE.validate_python(told), "IMPORT", received_ms, body=canonical_line(told))


def person(name: str = "Ada Vane", **further: Any) -> dict[str, Any]:
    """A person of the shop."""
    return {"kind": "person", "id": "P1", "name": name, "roles": ["welder"]} | further
