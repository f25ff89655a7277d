"""An entry as the record holds it: at its position, with when it was sent and when it first arrived."""

from typing import NamedTuple

from server.facts.log import AnyEntry


class Recorded(NamedTuple):
    """An entry at its position; times in ms UTC, `sent_ms` by the device's clock, `received_ms` by the server's."""

    position: int
    received_ms: int
    sent_ms: int | None
    entry: AnyEntry


class Signed(NamedTuple):
    """Any other noun that became known at a record position: a register line, a decision, a permission."""

    position: int
    received_ms: int
    noun: object
