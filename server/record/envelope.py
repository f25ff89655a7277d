"""The envelope: the one canonical line that is hashed for an entry; it fixes the bytes, the receipt and the chains."""

from collections.abc import Sequence
from typing import NamedTuple

from server.evidence.canonical import canonical_line
from server.evidence.chain_subject import ChainSubject
from server.facts.moment import show_moment
from server.record.lines import NewLine

FORMAT = "strawline line 1"
SEAL = "seal"


class ChainPlace(NamedTuple):
    """The running number a line takes in one subject's chain, and the head before it."""

    subject: ChainSubject
    number: int
    before: bytes


def envelope_of(line: NewLine, position: int, body_sha256: bytes, places: Sequence[ChainPlace]) -> bytes:
    """Write the envelope of a line; a seal is its own, since the checkpoint's reader looks for it as it is."""
    if line.kind == SEAL:
        return line.body
    return canonical_line(
        {
            "format": FORMAT,
            "position": position,
            "id": line.id,
            "kind": line.kind,
            "delivery": line.delivery,
            "device": line.device,
            "received": show_moment(line.received_ms),
            "sent": None if line.sent_ms is None else show_moment(line.sent_ms),
            "state": line.state,
            "problem": line.problem,
            "sha256": body_sha256.hex(),
            "subjects": [[*place.subject, place.number, place.before.hex()] for place in places],
        }
    )
