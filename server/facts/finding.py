"""A finding as the record holds it: a verdict somebody must read, from when, under which book, with its digest."""

import hashlib
from typing import NamedTuple

from server.facts.judged import Verdict


class Finding(NamedTuple):
    """A standing finding; `known_at` is the record position it was judged at, `digest` what a signer sees of it."""

    verdict: Verdict
    frame: str | None
    known_at: int
    book: str

    @property
    def key(self) -> str:
        """The natural key that decisions point at."""
        return self.verdict.key

    @property
    def digest(self) -> str:
        """SHA-256, in hex, over all a signer sees of this finding; another value or word gives another digest."""
        told = self.verdict
        words = (told.key, told.word.value, told.severity.value, told.unit, *told.rests_on)
        numbers = (told.value, told.low, told.high)
        return hashlib.sha256(repr((words, numbers)).encode()).hexdigest()


def digest_of(findings: "tuple[Finding, ...]") -> str:
    """Give one digest over several findings in the order of their keys: what one signature covers."""
    lines = sorted(f"{finding.key} {finding.digest}" for finding in findings)
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()
