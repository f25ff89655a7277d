"""Every line of the invented shop is read back from the record as the noun its validation makes."""

import json
from collections import Counter
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from server.evidence.canonical import canonical_line
from server.facts.log import LOG_ENTRY
from server.facts.register_line import REGISTER_LINE
from server.record.kept_nouns import KEPT_ENTRIES, KEPT_REGISTER_LINES


def lines(file: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]


def all_of(noun: BaseModel) -> tuple[object, ...]:
    return type(noun), noun, noun.model_fields_set, list(noun.__dict__)


def test_every_entry(small: Path):
    """Each entry that was sent, of every kind the shop knows, is the same noun on both roads."""
    kinds: Counter[str] = Counter()
    for sent in lines(small / "deliveries.jsonl"):
        entry = LOG_ENTRY.validate_json(sent["line"])
        assert all_of(KEPT_ENTRIES.read(sent["line"].encode())) == all_of(entry), sent["id"]
        kinds[entry.kind] += 1
    assert len(kinds) > 10
    assert kinds["pass"] > 1000


def test_every_signed_paper(small: Path):
    """So is each signed paper of its folder."""
    for told in lines(small / "papers.jsonl"):
        known = {"known_at": 1} if told["line"]["kind"] == "permission" else {}
        body = canonical_line(told["line"] | known)
        assert all_of(KEPT_REGISTER_LINES.read(body)) == all_of(REGISTER_LINE.validate_json(body)), body
