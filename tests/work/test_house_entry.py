"""An entry the service writes: under the house's name, at the moment it is written, its id made from its subject."""

import json

from server.facts.log import LOG_ENTRY
from server.work.house_entry import Writing, house_entry, house_entry_id

WRITING = Writing("P1", "welder", 1_742_301_600_000, 41)
TOLD = {"kind": "trace", "of": "TAB:1", "sha256": "ab", "instrument": "PS-9", "note": None}


def test_it_is_an_entry_like_any_other() -> None:
    """The line is understood, names who wrote it and when, and comes after what the record had."""
    sent = house_entry("trace:ab", WRITING, TOLD)
    entry = LOG_ENTRY.validate_json(sent.body)
    assert (entry.id, entry.device, entry.who, entry.role) == ("house:trace:ab", "house", "P1", "welder")
    assert (entry.happened, entry.device_time, entry.seq) == (WRITING.now_ms, WRITING.now_ms, 42)
    assert (sent.id, sent.device, sent.received_ms) == (entry.id, "house", WRITING.now_ms)
    assert entry.id == house_entry_id("trace:ab")


def test_what_is_told_goes_before_the_house() -> None:
    """A moment told is kept, nothing untold is written, and no steady counter or boot is made up."""
    line = json.loads(house_entry("x:1", WRITING, TOLD | {"happened": "2025-01-01T00:00:00.000Z"}).body)
    assert line["happened"] == "2025-01-01T00:00:00.000Z"
    assert not {"note", "boot", "mono_ms"} & set(line)
