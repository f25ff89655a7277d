"""One chain per subject: a running number and a head, so that an entry left out shows as surely as one altered."""

from collections.abc import Iterable
from hashlib import sha256
from typing import NamedTuple

from server.evidence.canonical import canonical_line
from server.evidence.chain_subject import ChainSubject

_START = b"strawline/chain-start/v1\n"
_LINK = b"strawline/chain-link/v1\n"


class ChainHead(NamedTuple):
    """The number of a subject's last entry, which is how many it has, and the head that commits to them in order."""

    number: int
    head: bytes


def extended(chain: ChainHead, leaf: bytes) -> ChainHead:
    """Give the chain with one entry more: SHA-256 of a tag, the head before it and the entry's leaf hash."""
    return ChainHead(chain.number + 1, sha256(_LINK + chain.head + leaf).digest())


def chain_of(subject: ChainSubject, leaves: Iterable[bytes] = ()) -> ChainHead:
    """Compute a subject's chain anew from its leaf hashes; with none, where the chain starts.

    The start is bound to the subject, so one subject's chain cannot be passed off as another's.
    """
    chain = ChainHead(0, sha256(_START + canonical_line([subject.kind, subject.id])).digest())
    for leaf in leaves:
        chain = extended(chain, leaf)
    return chain
