"""Reads the entry out of a sending; what cannot be understood is a line all the same, with its problem named."""

import json
from typing import Any, NamedTuple

from pydantic import ValidationError

from server.evidence.canonical import parse_line, refuse_unfit
from server.evidence.chain_subject import ChainSubject
from server.evidence.refusals import LineRefused
from server.facts.log import LOG_ENTRY, AnyEntry
from server.facts.supplies import Arrived
from server.record.entry_lines import entry_line
from server.record.lines import HOUSE, NewLine
from server.work.plain_entry import read_plain
from server.work.remarks import Named, named_in
from server.work.sent_delivery import SentDelivery, is_name

_MOST_LINE = 64_000
_FIRST_FEW = 3
_KEPT_ANYWAY = "it is kept as it was sent; log it again as a new entry"


class Understood(NamedTuple):
    """The line a sending becomes, under the entry's own id where it tells one; what the entry names, if understood."""

    line: NewLine
    named: Named | None = None


def understand(sent: SentDelivery) -> Understood:
    """Read a sending; this takes no question to the record, so it is done before the writer's turn."""
    try:
        entry = (None if sent.problem else read_plain(sent.body, _MOST_LINE)) or _read_closely(sent)
        _refuse_the_houses_own(entry, sent)
    except LineRefused as slip:
        return _not_understood(sent, _loosely(sent.body), f"line: {slip}")
    except _Unclear as slip:
        return _not_understood(sent, parse_line(sent.body, _MOST_LINE), str(slip))
    except ValidationError as refused:
        return _not_understood(sent, parse_line(sent.body, _MOST_LINE), _told(refused))
    line = entry_line(
        entry, sent.body, device=sent.device, delivery=sent.id, received_ms=sent.received_ms, sent_ms=sent.sent_ms
    )
    return Understood(line, named_in(entry))


def _read_closely(sent: SentDelivery) -> AnyEntry:
    refuse_unfit(sent.body, _MOST_LINE)
    _refuse_nul(sent.body)
    if sent.problem:
        raise _Unclear(sent.problem)
    return LOG_ENTRY.validate_json(sent.body)


class _Unclear(ValueError):
    """What is wrong beside the entry itself."""


def _refuse_nul(body: bytes) -> None:
    if b"\\u0000" in body:
        raise _Unclear("line: found the character NUL; expected text without it")


def _refuse_the_houses_own(entry: AnyEntry, sent: SentDelivery) -> None:
    if isinstance(entry, Arrived) and sent.device != HOUSE:
        raise _Unclear("kind: found 'arrived', which the record alone writes; send the picture itself")


def _loosely(body: bytes) -> Any:
    """Read what can still be read, so that an entry that breaks a rule of sealing keeps its own id."""
    try:
        return json.loads(body)
    except (ValueError, RecursionError):
        return None


def _not_understood(sent: SentDelivery, found: Any, problem: str) -> Understood:
    own_id, frame = _text(found, "id", least=3), _text(found, "frame")
    line = NewLine(
        kind="entry",
        id=own_id or sent.id,
        device=sent.device,
        delivery=sent.id,
        body=sent.body,
        received_ms=sent.received_ms,
        sent_ms=sent.sent_ms,
        state="taken, not understood",
        problem=f"{problem}; {_KEPT_ANYWAY}",
        frame=frame,
        subjects=(ChainSubject("frame", frame),) if frame else (),
    )
    return Understood(line)


def _text(found: Any, name: str, least: int = 1) -> str | None:
    value = found.get(name) if isinstance(found, dict) else None
    return value if is_name(value, least=least) else None


def _told(refused: ValidationError) -> str:
    errors = refused.errors(include_url=False, include_context=False)
    told = "; ".join(_one(error) for error in errors[:_FIRST_FEW])
    return told if len(errors) <= _FIRST_FEW else f"{told}; and {len(errors) - _FIRST_FEW} more"


def _one(error: Any) -> str:
    # The first step of the path is the kind, which says nothing about where the slip is.
    path = ".".join(str(step) for step in error["loc"][1:] or error["loc"]) or "kind"
    shown = "missing" if error["type"] == "missing" else ascii(error["input"])[:60]
    return f"{path}: found {shown}; {error['msg'].removeprefix('Value error, ')}"
