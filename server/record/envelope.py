"""The envelope: the one canonical line that is hashed for an entry; it fixes the bytes, the receipt and the chains."""

from collections.abc import Mapping
from functools import lru_cache
from json.encoder import encode_basestring as written

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.refusals import LineRefused
from server.facts.moment import show_moment
from server.record.lines import NewLine

FORMAT = "strawline line 1"
SEAL = "seal"
_REMEMBERED = 4096


def envelope_of(line: NewLine, position: int, body_sha256: bytes, before: Mapping[ChainSubject, ChainHead]) -> bytes:
    """Write the envelope of a line, canonical as it stands; a line takes the next number in each chain named.

    A seal is its own envelope, since the checkpoint's reader looks for it as it is.
    """
    if line.kind == SEAL:
        return line.body
    chains = [f'[{_named(subject)},{number + 1},"{head.hex()}"]' for subject, (number, head) in before.items()]
    envelope = (
        f'{{"delivery":{_or_null(line.delivery)},"device":{written(line.device)},"format":"{FORMAT}",'
        f'"id":{written(line.id)},"kind":{written(line.kind)},"position":{position},'
        f'"problem":{_or_null(line.problem)},"received":"{show_moment(line.received_ms)}",'
        f'"sent":{_moment_or_null(line.sent_ms)},"sha256":"{body_sha256.hex()}","state":{written(line.state)},'
        f'"subjects":[{",".join(chains)}]}}'
    )
    try:
        return envelope.encode()
    except UnicodeEncodeError:
        raise LineRefused("the envelope", envelope, "text without half of a surrogate pair") from None


# The same few things are named again and again.
@lru_cache(_REMEMBERED)
def _named(subject: ChainSubject) -> str:
    return f"{written(subject.kind)},{written(subject.id)}"


def _or_null(text: str | None) -> str:
    return "null" if text is None else written(text)


def _moment_or_null(moment_ms: int | None) -> str:
    return "null" if moment_ms is None else f'"{show_moment(moment_ms)}"'
