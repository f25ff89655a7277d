"""Whether a line's columns still say what its sealed envelope and its own bytes say."""

import json
from collections.abc import Iterator, Mapping
from hashlib import sha256
from typing import Any

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead, chain_of
from server.facts.log import LOG_ENTRY
from server.facts.moment import show_moment
from server.record.entry_lines import columns_of
from server.record.envelope import SEAL
from server.record.lines import StoredLine

Links = list[tuple[ChainSubject, ChainHead]]


def odd_columns(line: StoredLine, links: Links, ends: Mapping[ChainSubject, ChainHead]) -> Iterator[str]:
    """Say which columns of a line were altered, each with what stands there and what it should be.

    `links` are its places in the chains as stored beside it, `ends` where those chains ended before it.
    """
    if line.kind == SEAL:
        yield from _differing({"body": line.body}, {"body": line.envelope})
        return
    if line.body_sha256 != sha256(line.body).digest() and line.state != "taken before":
        found = sha256(line.body).hexdigest()[:16]
        yield f"bytes: their SHA-256 is {found}..., sealed is {line.body_sha256.hex()[:16]}..."
    try:
        sealed = json.loads(line.envelope)
        yield from _differing(_told(line), {name: sealed[name] for name in _told(line)})
        before = [(ends.get(subject) or chain_of(subject)).head.hex() for subject, _ in links]
        places = [[*subject, place.number, head] for (subject, place), head in zip(links, before, strict=True)]
        yield from _differing({"chains": places}, {"chains": sealed["subjects"]})
    except (ValueError, KeyError, TypeError):
        yield "envelope: it cannot be read any more, or a column holds what it never could"
    if line.kind == "entry" and line.state == "taken":
        yield from _differing_from_bytes(line)


def _told(line: StoredLine) -> dict[str, Any]:
    return {
        "position": line.position,
        "id": line.id,
        "kind": line.kind,
        "delivery": line.delivery,
        "device": line.device,
        "received": show_moment(line.received_ms),
        "sent": None if line.sent_ms is None else show_moment(line.sent_ms),
        "state": line.state,
        "problem": line.problem,
        "sha256": line.body_sha256.hex(),
    }


def _differing_from_bytes(line: StoredLine) -> Iterator[str]:
    try:
        entry = LOG_ENTRY.validate_json(line.body)
    except ValueError:
        yield "bytes: they can no longer be read as an entry"
        return
    expected = columns_of(entry, line.device)
    if expected["frame"] is None:
        # An entry that mends another one stands under that one's frame.
        del expected["frame"]
    found = {name: getattr(line, name) for name in expected}
    yield from _differing(found, expected)


def _differing(found: dict[str, Any], expected: dict[str, Any]) -> Iterator[str]:
    for name, value in found.items():
        if value != expected[name]:
            yield f"{name} is {str(value)[:60]!r}, sealed is {str(expected[name])[:60]!r}"
