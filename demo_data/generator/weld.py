"""One joint to be welded in one attempt on one day, with its moments once it has been laid into the day."""

from dataclasses import dataclass, field
from datetime import date

from demo_data.generator.frames import Frame
from demo_data.generator.joints import Seam, seam, setup_of
from demo_data.generator.plan import Pin, Remake

SECOND = 1000
TACK_ALL = {("LST", 1), ("WHB", 1)}
"""Stages whose joints are all tacked, and checked on the table, before the first is welded."""


@dataclass
class Fate:
    """A chance event: what goes out of its limits on which run, and what was decided about it."""

    quantity: str
    run: str
    value: str
    choice: str


@dataclass
class Weld:
    """The weld; moments are true shop time in ms: gap, tack, end of arc of root, fill and wash, and the looks."""

    frame: Frame
    joint: str
    attempt: int
    day: date
    welder: str
    procedure: str
    pin: Pin = field(default_factory=Pin)
    quiet: bool = True
    with_wash: bool = False
    stage: int = 0
    tack: int = 0
    root: int = 0
    fill: int = 0
    wash: int = 0
    looked: int = 0
    travel_mm_per_min: float = 80.0
    fate: Fate | None = None
    inside_looks: list[tuple[int, int | None]] = field(default_factory=list)
    removed_at: int | None = None
    remake: Remake | None = None

    @property
    def seam(self) -> Seam:
        """What the design says about the joint."""
        return seam(self.joint)

    @property
    def subject(self) -> str:
        """Frame, joint and attempt."""
        return f"{self.frame.serial}/{self.joint}#{self.attempt}"

    @property
    def setup(self) -> str:
        """The purge set-up it is welded in."""
        return setup_of(self.frame.design, self.stage)

    @property
    def tacked_with_all(self) -> bool:
        """All joints of its stage are tacked before the first is welded; not so when it is made again."""
        return (self.frame.design, self.stage) in TACK_ALL and self.remake is None

    @property
    def runs(self) -> tuple[str, ...]:
        """The runs it takes, in order."""
        if self.remake and self.remake.runs:
            return self.remake.runs
        if self.procedure == "R1":
            return ("repair",)
        run = ("root", "fill") if self.seam.structural else ("fill",)
        return (*run, "wash") if self.with_wash else run

    @property
    def begun_before(self) -> bool:
        """It is finished here, not begun: there is nothing to tack."""
        return bool(self.remake and self.remake.runs) or self.procedure == "R1"

    @property
    def settled(self) -> bool:
        """An incident says when it was welded."""
        return self.pin.fill is not None

    @property
    def arc_ms(self) -> int:
        """How long one run round the whole seam takes."""
        if self.pin.arc_s is not None:
            return round(self.pin.arc_s * SECOND)
        return round(self.seam.seam_mm / self.travel_mm_per_min * 60 * SECOND)

    @property
    def first_arc(self) -> int:
        """When the first arc at it is struck in its place: the tack, unless it was tacked before or needs none."""
        return self.root - self.arc_ms if self.tacked_with_all or self.begun_before else self.tack

    @property
    def last(self) -> int:
        """When the work at it ends."""
        return max(self.fill, self.wash, self.looked)
