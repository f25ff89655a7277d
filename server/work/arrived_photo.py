"""Finds the picture an entry names: whether it has arrived, and its bytes."""

import re
from typing import NamedTuple, Protocol

from server.facts.log import LOG_ENTRY
from server.facts.supplies import Arrived
from server.record.files import Files
from server.record.lines import HOUSE, StoredLine
from server.work.house_entry import house_entry_id
from server.work.refusal import NotThere

_SHA256 = re.compile(r"[0-9a-f]{64}")


class LineQuestions(Protocol):
    """What is asked of the record."""

    def line(self, name: str) -> StoredLine | None:
        """Give the line an id was first taken under."""


class PhotoBytes(NamedTuple):
    """A picture's kept bytes, with what was recorded when they arrived."""

    arrived: Arrived
    content: bytes


def arrived_name(sha256: str) -> str:
    """Give the name of a picture's arrival, so that the same bytes arrive once."""
    return f"arrived:{sha256}"


def arrived_photo(reads: LineQuestions, sha256: str) -> Arrived | None:
    """Give what was recorded when the picture of this name arrived; none: it has not."""
    line = reads.line(house_entry_id(arrived_name(sha256))) if _SHA256.fullmatch(sha256) else None
    if line is None or line.device != HOUSE or line.state != "taken" or line.entry_kind != "arrived":
        return None
    entry = LOG_ENTRY.validate_json(line.body)
    return entry if isinstance(entry, Arrived) else None


def photo_bytes(reads: LineQuestions, files: Files, sha256: str) -> PhotoBytes:
    """Give a picture; raises `NotThere` where it has not arrived, or is gone from the disk."""
    arrived = arrived_photo(reads, sha256)
    if arrived is None:
        raise NotThere(f"no picture {sha256[:12]}… has arrived; what a tablet took comes when it has network again")
    content = files.read(arrived.kept_sha256)
    if content is None:
        raise NotThere(f"picture {sha256[:12]}… arrived and its file is missing; put back the newest backup's files")
    return PhotoBytes(arrived, content)
