"""What was done to who gets in: a secret set, a badge printed, a tablet enrolled or revoked, sessions ended."""

from typing import Literal

from server.facts.entry import Moment
from server.facts.noun import Noun

DoorAct = Literal[
    "PIN set",
    "pass phrase set",
    "badge printed",
    "badge taken away",
    "passkey added",
    "passkey taken away",
    "sessions ended",
    "tablet enrolled",
    "tablet revoked",
]


class DoorChange(Noun):
    """Who did it, in which role, on which device, to whom or to which tablet; the secret itself is never in it.

    Without `by` it was done by a command on the machine itself, where no session is.
    """

    kind: Literal["door change"] = "door change"
    id: str
    act: DoorAct
    at: Moment
    by: str | None = None
    role: str | None = None
    on: str
    person: str | None = None
    tablet: str | None = None
    words: str | None = None
