"""Makes the line of a register, a released text or a signed paper; its bytes are the noun's canonical JSON."""

from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.register_line import AnyRegisterLine, ReleasedText
from server.record.known_registers import read_released
from server.record.lines import NewLine
from server.record.subjects import subjects_of_register


def register_line(
    noun: AnyRegisterLine, device: str, received_ms: int, sent_ms: int | None = None, body: bytes | None = None
) -> NewLine:
    """Make a line of a noun; `body` are its bytes where it was sent as a line already.

    A text that cannot be read as what it is released as is refused here, with its reader's complaint.
    """
    if isinstance(noun, ReleasedText):
        read_released(noun)
    return NewLine(
        kind=noun.kind,
        id=noun.id,
        device=device,
        body=body or canonical_line(_sealable(noun.model_dump(mode="json", exclude_none=True))),
        received_ms=received_ms,
        sent_ms=sent_ms,
        subjects=subjects_of_register(noun),
        frame=getattr(noun, "frame", None),
    )


def _sealable(value: Any) -> Any:
    """Write every number with a fraction as its decimal text, since none is sealed as a float."""
    if isinstance(value, float):
        return f"{value:g}" if float(f"{value:g}") == value else repr(value)
    if isinstance(value, dict):
        return {name: _sealable(each) for name, each in value.items()}
    return [_sealable(each) for each in value] if isinstance(value, list) else value
