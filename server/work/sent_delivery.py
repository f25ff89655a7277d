"""One sending as it stands in a request: an id it can be answered under, and everything else taken as it is."""

import json
import re
from typing import Any, NamedTuple

from server.facts.delivery import Delivery
from server.facts.moment import parse_moment
from server.record.lines import HOUSE, UNNAMED
from server.work.refusal import Refusal

MOST_ID = 160
_MOST_DEVICE = 60
NAME_PATTERN = "^[^\\u0000-\\u001f\\u007f]*$"
_NO_NAME = re.compile("[\x00-\x1f\x7f\ud800-\udfff]")


class NoIdToAnswer(Refusal):
    """A sending without a proper id: nothing can be answered for it, so nothing was taken."""


class SentDelivery(NamedTuple):
    """A sending: its id, who sent it, its bytes, and what is wrong with the wrapping around them."""

    id: str
    device: str
    sent_ms: int | None
    received_ms: int
    body: bytes
    problem: str | None = None


def from_folder(delivery: Delivery, received_ms: int) -> SentDelivery:
    """Give a sending that was read as a delivery already, such as one of a shop folder."""
    received = received_ms if delivery.received_at is None else delivery.received_at
    return SentDelivery(delivery.id, delivery.device, delivery.sent_at, received, delivery.line.encode())


def from_request(value: object, place: str, received_ms: int) -> SentDelivery:
    """Give a sending of a request whatever it holds, as long as it has an id; `place` says where it stood."""
    found = value if isinstance(value, dict) else {}
    name = found.get("id")
    if not is_name(name, MOST_ID, least=3):
        raise NoIdToAnswer(
            f"{place}.id is {_shown(name)}; expected a text of 3 to {MOST_ID} characters; "
            "this one was not taken, so keep it on the device and send it again under an id"
        )
    problems = []
    sent_ms, device, body = None, found.get("device"), found.get("line")
    try:
        sent_ms = parse_moment(found["sent_at"]) if found.get("sent_at") is not None else None
    except ValueError as slip:
        problems.append(f"sent_at: {slip}")
    if not is_name(device, _MOST_DEVICE):
        problems.append(f"device is {_shown(device)}; expected a text of 1 to {_MOST_DEVICE} characters")
        device = UNNAMED
    if device == HOUSE:
        problems.append(f"device is {_shown(device)}, the name of the record's own lines; expected another")
    if not isinstance(body, str):
        problems.append(f"line is {_shown(body)}; expected the entry's canonical line as text")
        body = json.dumps(value, sort_keys=True)
    raw = body.encode("utf-8", "surrogatepass")
    return SentDelivery(str(name), str(device), sent_ms, received_ms, raw, "; ".join(problems) or None)


def is_name(value: Any, most: int = MOST_ID, least: int = 1) -> bool:
    """Say whether a value can name something: text that is not too long, without control characters, whole in UTF-8."""
    return isinstance(value, str) and least <= len(value) <= most and not _NO_NAME.search(value)


def _shown(value: object) -> str:
    text = ascii(value)
    return "missing" if value is None else text if len(text) <= 60 else f"{text[:57]}..."
