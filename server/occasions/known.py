"""What is known at one record position: the registers, the entries frames share, the clock pairs, the pictures."""

from collections.abc import Sequence
from dataclasses import dataclass

from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.facts.registers import Registers


@dataclass(frozen=True, slots=True)
class Known:
    """Everything a batch of occasions is built from, apart from the frames' own entries.

    `shared` are the entries bound to no frame (beads, coupons, checks, cylinder changes, sleeves, corrections);
    `passes` are the passes of any frame that share a gas line, instrument, sleeve or welder with what is judged;
    `photos` are the picture entries of any frame; `returned` are stages that may tell that a frame came back;
    `now_ms` is the moment it is known at (none: the last arrival);
    `known_at` is the record position it is known at.
    """

    registers: Registers
    shared: Sequence[Recorded] = ()
    clocks: Sequence[ClockPair] = ()
    passes: Sequence[Recorded] = ()
    photos: Sequence[Recorded] = ()
    returned: Sequence[Recorded] = ()
    now_ms: int | None = None
    known_at: int = 0
