"""Tells the record a register line in the words it was told in: a signed paper, a person, a packet."""

from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.register_line import REGISTER_LINE
from server.record.lines import HOUSE, NewLine
from server.record.register_lines import register_line


def told_line(told: dict[str, Any], received_ms: int, device: str = HOUSE) -> NewLine:
    """Make the line; moments are ISO text and numbers decimal text; a ValidationError names what is wrong."""
    return register_line(REGISTER_LINE.validate_python(told), device, received_ms, body=canonical_line(told))
