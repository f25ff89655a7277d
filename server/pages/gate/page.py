"""What a gate's screen shows: the frame, each gate with what it waits for, and the form that signs."""

from dataclasses import dataclass

from server.facts.deciding import Permission
from server.facts.legal_hold import LegalHold
from server.facts.orders import Customer
from server.facts.people import Person
from server.judgement.gates import Gate, Reason
from server.work.frame_history import FrameStory, JointStory

NEXT: tuple[Gate, ...] = ("final inspection", "release", "ship")
MEANING: dict[Gate, str] = {
    "hold point": "I have looked at this seam all round and release it to be covered",
    "final inspection": "I have inspected this frame and its record",
    "release": "I release this frame to leave the house",
    "ship": "This frame leaves the house",
}


@dataclass(frozen=True, slots=True)
class GateState:
    """One gate: given already, open to be signed, or shut with its reasons."""

    gate: Gate
    given: Permission | None
    reasons: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed and chosen at a gate that was not signed, which stands there again, but for the PINs."""

    gate: str = ""
    override: str = ""
    second: str = ""
    customer: str = ""


@dataclass(frozen=True, slots=True)
class GatePage:
    """The gates of one frame, or of one joint of it."""

    story: FrameStory
    joint: JointStory | None
    gates: tuple[GateState, ...]
    signers: tuple[Person, ...]
    customers: tuple[Customer, ...]
    problems: tuple[str, ...]
    done: str
    hold: LegalHold | None = None
    typed: Typed = Typed()

    def typed_at(self, gate: Gate) -> Typed:
        """Give what was typed at one gate; nothing at the others."""
        return self.typed if self.typed.gate == gate else Typed()

    def meaning(self, gate: Gate) -> str:
        """Say what a signature at a gate declares."""
        return MEANING[gate]
