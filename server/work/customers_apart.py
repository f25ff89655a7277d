"""Tells a customer apart: the number and a salted digest are sealed, the details go beside the line with their salt."""

import json
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, TypeAlias

from server.evidence.canonical import canonical_line
from server.evidence.salted import salted_digest
from server.facts.customers import CustomerNumber
from server.record.keeping_details import KeptDetails
from server.record.lines import NewLine
from server.record.reads import Reads
from server.record.register_lines import register_line
from server.work.folder_line import digest_of_words

Salt: TypeAlias = Callable[[], bytes]
_NOT_DETAILS = ("kind", "id")


class ToldApart(NamedTuple):
    """The line to be sealed, and what is kept beside it."""

    line: NewLine
    kept: KeptDetails


def told_apart(words: Mapping[str, Any], position: int, received_ms: int, device: str, salt: bytes) -> ToldApart:
    """Make both of the words a customer was told in; `position` is where the line will stand."""
    number = str(words["id"])
    details = canonical_line({name: words[name] for name in words if name not in _NOT_DETAILS})
    sealed = {"kind": "customer number", "id": number, "details_hmac_sha256": salted_digest(details, salt)}
    noun = CustomerNumber.model_validate(sealed)
    line = register_line(noun, device, received_ms, body=canonical_line(sealed))
    return ToldApart(line, KeptDetails(position, number, salt, details))


def customers_told(reads: Reads) -> set[tuple[str, str, bytes]]:
    """Give which customers were told already, each by the digest of the words they were told in."""
    return {
        ("customer", each.customer, digest_of_words(_words(each)))
        for each in reads.customer_details()
        if each.details is not None
    }


def _words(kept: KeptDetails) -> dict[str, Any]:
    try:
        details = json.loads(kept.details or b"{}")
    except ValueError:
        # Altered details equal no words; check-record names them.
        details = {}
    return {"kind": "customer", "id": kept.customer, **details}
