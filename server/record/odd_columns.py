"""Whether a line's columns still say what its sealed envelope and its own bytes say."""

import json
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from hashlib import sha256
from typing import Any, NamedTuple

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead, chain_of
from server.evidence.refusals import LineRefused
from server.evidence.seals import read_seal
from server.facts.log import LOG_ENTRY
from server.facts.moment import show_moment
from server.record.entry_lines import columns_of
from server.record.envelope import SEAL
from server.record.lines import FIRST_STATES, HOUSE, NOT_UNDERSTOOD, UNNAMED, StoredLine

Links = list[tuple[ChainSubject, ChainHead]]
FirstOf = Callable[[str], StoredLine | None]
"""Gives the line an id was first taken under: of what was sent again only that one keeps the bytes."""
_ASKED_BY = ("entry_kind", "boot", "seq", "mono_ms", "device_ms", "happened_ms", "of")
_NOTHING: Mapping[str, Any] = {}
_SEALED_AS = {"device": "record", "sent_ms": None, "delivery": None, "frame": None, "state": "taken", "problem": None}


class Beside(NamedTuple):
    """What a line is looked at with: its places in the chains as stored, where those ended before it, other lines."""

    links: Links
    ends: Mapping[ChainSubject, ChainHead]
    first_of: FirstOf


def odd_columns(line: StoredLine, beside: Beside) -> Iterator[str]:
    """Say which columns of a line were altered, each with what stands there and what it should be."""
    if line.kind == SEAL:
        yield from _odd_seal(line)
        return
    if line.body_sha256 != sha256(line.body).digest() and line.state != "taken before":
        found = sha256(line.body).hexdigest()[:16]
        yield f"bytes: their SHA-256 is {found}..., sealed is {line.body_sha256.hex()[:16]}..."
    try:
        sealed, told = json.loads(line.envelope.decode()), _told(line)
        yield from _differing(told, {name: sealed[name] for name in told})
        before = [(beside.ends.get(subject) or chain_of(subject)).head.hex() for subject, _ in beside.links]
        places = [[*subject, place.number, head] for (subject, place), head in zip(beside.links, before, strict=True)]
        yield from _differing({"chains": places}, {"chains": sealed["subjects"]})
    except (ValueError, KeyError, TypeError):
        yield "envelope: it cannot be read any more, or a column holds what it never could"
    yield from _odd_asked_by(line, beside)


def _odd_seal(line: StoredLine) -> Iterator[str]:
    yield from _differing({"body": line.body}, {"body": line.envelope})
    try:
        made_ms: int | None = read_seal(line.envelope).sealed_ms
    except LineRefused:
        made_ms = line.received_ms
    own = {"id": f"seal {line.position}", "received_ms": made_ms, "body_sha256": sha256(line.envelope).digest()}
    wanted = {**_SEALED_AS, **dict.fromkeys(_ASKED_BY), **own}
    yield from _differing({name: getattr(line, name) for name in wanted}, wanted)


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


def _odd_asked_by(line: StoredLine, beside: Beside) -> Iterator[str]:
    """Compare what a line is found by with what its bytes say, and its frame with the chains it stands in."""
    if line.kind != "entry":
        yield from _odd_among(line, [_NOTHING], {_read(line.body).get("frame")})
        return
    frames: set[Any] = {subject.id for subject, _ in beside.links if subject.kind == "frame"} or {None}
    if line.state == "taken before":
        yield from _odd_repeat(line, beside.first_of(line.id))
    elif line.state == NOT_UNDERSTOOD:
        yield from _odd_among(line, [_NOTHING], frames)
    elif own := _columns(line.body, line.device):
        # An entry that mends another one stands under that one's frame; a refused copy always does.
        told = own.pop("frame")
        copy = line.state == "refused copy"
        ways = [own, *([_NOTHING] if copy else [])]
        yield from _odd_among(line, ways, frames if told is None else frames | {told} if copy else {told})
    elif line.state == "taken":
        yield "bytes: they can no longer be read as an entry"
    else:
        yield from _odd_among(line, [_NOTHING], frames)


def _odd_repeat(line: StoredLine, first: StoredLine | None) -> Iterator[str]:
    """Compare a repeat, which keeps no bytes, with the line its entry was first taken by."""
    if first is None or first.state not in FIRST_STATES:
        yield "repeat: the line it repeats is not there"
        return
    yield from _differing({"body": line.body}, {"body": b""})
    own = _columns(first.body, line.device) or {}
    # Of a sending whose wrapping was odd nothing was read, though its entry had been understood or was later.
    unread = not own or first.state != "taken" or line.sent_ms is None or line.device in (HOUSE, UNNAMED)
    ways = [own] if own else []
    yield from _odd_among(line, [*ways, *([_NOTHING] if unread else [])], {first.frame})


def _odd_among(line: StoredLine, ways: Sequence[Mapping[str, Any]], frames: Collection[str | None]) -> Iterator[str]:
    """Hold the columns against the ways they may stand, the first of them being the usual one."""
    found = {name: getattr(line, name) for name in _ASKED_BY}
    wanted = [{name: way.get(name) for name in _ASKED_BY} for way in ways]
    if found not in wanted:
        yield from _differing(found, wanted[0])
    if line.frame not in frames:
        yield from _differing({"frame": line.frame}, {"frame": min(frames, key=str)})


def _columns(body: bytes, device: str) -> dict[str, Any] | None:
    try:
        return columns_of(LOG_ENTRY.validate_json(body), device)
    except ValueError:
        return None


def _read(body: bytes) -> Mapping[str, Any]:
    try:
        told = json.loads(body)
    except ValueError:
        return {}
    return told if isinstance(told, dict) else {}


def _differing(found: Mapping[str, Any], expected: Mapping[str, Any]) -> Iterator[str]:
    for name, value in found.items():
        if value != expected[name]:
            yield f"{name} is {str(value)[:60]!r}, sealed is {str(expected[name])[:60]!r}"
