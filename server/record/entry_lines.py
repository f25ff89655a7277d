"""Makes the line of an entry a device sent, with the columns it is asked by."""

from typing import Any

from server.facts.log import AnyEntry
from server.record.lines import NewLine
from server.record.subjects import subjects_of_entry


def entry_line(
    entry: AnyEntry, body: bytes, *, device: str, delivery: str | None, received_ms: int, sent_ms: int | None
) -> NewLine:
    """Make the line of an entry as it was understood; `device` is the one that sent it."""
    return NewLine(
        kind="entry",
        id=entry.id,
        device=device,
        delivery=delivery,
        body=body,
        received_ms=received_ms,
        sent_ms=sent_ms,
        subjects=subjects_of_entry(entry),
        **columns_of(entry, device),
    )


def columns_of(entry: AnyEntry, device: str) -> dict[str, Any]:
    """Give the columns an entry is asked by; a sending by another device says nothing of the entry's own clock."""
    columns: dict[str, Any] = {
        "entry_kind": entry.kind,
        "happened_ms": entry.happened,
        "frame": entry.told("frame"),
        "of": entry.told("of"),
    }
    if device == entry.device:
        columns |= {"boot": entry.boot, "seq": entry.seq, "mono_ms": entry.mono_ms, "device_ms": entry.device_time}
    return columns
