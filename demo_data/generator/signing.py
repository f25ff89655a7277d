"""Signatures on papers, each over the words that were signed."""

import hashlib
from typing import Any

from demo_data.generator.devices import iso

ROLES = {"Q01": "quality lead", "O01": "owner"}


def signatures(moment_ms: int, meaning: str, *people: str) -> list[dict[str, Any]]:
    """Give the signatures of people under one meaning; what was shown is the paper's own words."""
    shown = hashlib.sha256(meaning.encode()).hexdigest()
    return [
        {"person": person, "role": ROLES[person], "at": iso(moment_ms), "meaning": meaning, "shown_sha256": shown}
        for person in people
    ]


def key(subject: str, question: str) -> str:
    """Give the natural key of a finding."""
    return f"{subject}|{question}"
