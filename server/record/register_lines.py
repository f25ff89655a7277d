"""Makes the line of a register, a released text or a signed paper, from the noun and the bytes it was told in."""

from server.facts.orders import Customer
from server.facts.register_line import AnyRegisterLine, ReleasedText
from server.record.known_registers import read_released
from server.record.lines import NewLine
from server.record.subjects import subjects_of_register


def register_line(
    noun: AnyRegisterLine, device: str, received_ms: int, sent_ms: int | None = None, *, body: bytes
) -> NewLine:
    """Make a line of a noun; `body` is its canonical line, as it was sent or as the service tells it.

    A text that cannot be read as what it is released as is refused here, with its reader's complaint; so is a
    customer with a name, which once sealed could never be removed.
    """
    if isinstance(noun, Customer):
        raise TypeError("a customer is sealed as a number; the details go beside the line")
    if isinstance(noun, ReleasedText):
        read_released(noun)
    return NewLine(
        kind=noun.kind,
        id=noun.id,
        device=device,
        body=body,
        received_ms=received_ms,
        sent_ms=sent_ms,
        subjects=subjects_of_register(noun),
        frame=getattr(noun, "frame", None),
    )
