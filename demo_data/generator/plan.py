"""What is planted before the ordinary work is laid around it: pinned welds, gas, sleeves, days without chance."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Any

from demo_data.generator.days import at, weeks_later

if TYPE_CHECKING:
    from demo_data.generator.devices import Boot, Outage
    from demo_data.generator.shop import Shop
    from demo_data.generator.story import Story

JointKey = tuple[int, str, int]


@dataclass(frozen=True)
class Place:
    """Where an incident lies: so many production weeks later than it is told, so four times as many serials on."""

    weeks: int = 0

    def day(self, text: str) -> date:
        """Give the day an incident's own day comes to lie on."""
        return weeks_later(date.fromisoformat(text), self.weeks)

    def at(self, text: str, clock: str) -> int:
        """Give the moment [ms] of a day and a time on the shop's clock."""
        return at(self.day(text), clock)

    def number(self, number: int) -> int:
        """Give the number of the frame that stands in for this one."""
        return number + 4 * self.weeks

    def serial(self, number: int) -> str:
        """Give the serial of the frame that stands in for this one."""
        return f"MT-{self.number(number):04d}"


@dataclass
class Pin:
    """What is settled about one joint in one attempt; moments in ms, ends of arc for root and fill."""

    tack: int | None = None
    root: int | None = None
    fill: int | None = None
    welder: str | None = None
    device: str | None = None
    sleeve: str | None = None
    oxygen: tuple[int, ...] = ()
    inside: tuple[tuple[int, int], ...] | None = None
    """Moment and grade of every inside look; empty: nobody looked."""
    values: dict[str, str] = field(default_factory=dict)
    gap_mm: str | None = None
    card: str | None = None
    quarters: tuple[str, ...] = ()
    """Quarters the fill went over; empty: all."""
    looked: int | None = None
    looks: bool = True
    outside: int | None = None
    arc_s: float | None = None
    pre_purge: tuple[float, str] | None = None
    """Minutes of purge before the first arc, and its flow."""
    photo: tuple[str, str, int] | None = None
    """Digest, look and moment of the picture attached to the inside look."""


@dataclass
class Remake:
    """A joint made again, or a joint added: on this day, in this attempt, by this procedure."""

    number: int
    joint: str
    attempt: int
    day: date
    procedure: str | None = None
    removed_at: int | None = None
    method: str = "cut out and dressed back"
    approved_by: tuple[str, ...] = ("Q01",)
    piece_replaced: bool = False
    by: str | None = None
    """Who cut it out, where that was not the welder."""
    runs: tuple[str, ...] = ()
    """Only these runs, under this pin, where the joint is finished rather than made again."""
    stage: int | None = None
    pin: Pin | None = None


@dataclass
class Plan:
    """Everything planted, gathered from the incidents."""

    pins: dict[JointKey, Pin] = field(default_factory=dict)
    remakes: list[Remake] = field(default_factory=list)
    quiet_days: set[tuple[str, date]] = field(default_factory=set)
    frames: set[int] = field(default_factory=set)
    """Frames that do not slip and meet no chance event."""
    days: dict[tuple[int, int], date] = field(default_factory=dict)
    """Day of a frame's stage, where it is not the skeleton's."""
    overtime: set[tuple[int, date]] = field(default_factory=set)
    """Frames worked on after the day's ordinary work."""
    tablets: list[tuple[str, int, int, str]] = field(default_factory=list)
    """A tablet, from when until when [ms], and the one that taps in its place what is not a weld or a look."""
    changes: dict[str, list[tuple[int, str | None]]] = field(default_factory=dict)
    """Cylinder changes settled per line: the moment, and the cylinder where it matters which."""
    never_connected: set[str] = field(default_factory=set)
    lot_names: dict[str, str] = field(default_factory=dict)
    """Name of the fill lot a cylinder stands in."""
    sleeves: list[tuple[str, str, int | None, int | None]] = field(default_factory=list)
    """Sleeve, bench, opened and closed, where that is settled."""
    skipped: set[tuple[str, object]] = field(default_factory=set)
    """Ordinary happenings that did not happen, or are told by the incident itself."""
    told: list[tuple[str, Callable[["Shop", "Story"], None]]] = field(default_factory=list)
    """What each incident adds once the ordinary work is written, by its name."""
    true_oxygen: dict[tuple[str, date], tuple[int, int, int, int]] = field(default_factory=dict)
    """Range of true oxygen on a purge line that day: structural joints, then fittings."""
    boots: dict[str, list["Boot"]] = field(default_factory=dict)
    outages: list["Outage"] = field(default_factory=list)
    facts: dict[Any, Any] = field(default_factory=dict)

    def pin(self, number: int, joint: str, attempt: int = 1) -> Pin:
        """Give the pin of a joint, made where there is none yet."""
        return self.pins.setdefault((number, joint, attempt), Pin())

    def quiet(self, bench: str, *days: date) -> None:
        """Let no chance happen at a bench on these days."""
        self.quiet_days |= {(bench, day) for day in days}
