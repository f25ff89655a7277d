"""The skeleton: which frame is built in which week, at which bench, in which stage on which day."""

from dataclasses import dataclass, field
from datetime import date

from demo_data.generator.days import MONDAYS, working_days_later
from demo_data.generator.joints import STAGES

SIZES = {"LST": ("52", "56", "60"), "WHB": ("46", "50", "54"), "PLV": ("36", "40", "44")}
OLD = 871
INSPECTED, FINISHING, RELEASED, SHIPPED = 7, 8, 10, 12


@dataclass
class Frame:
    """One frame; `days[k]` is the working day of stage k, 0 to 4 at the bench and 12 the day it ships."""

    number: int
    design: str
    bench: str
    days: list[date] = field(default_factory=list)

    @property
    def before_the_record(self) -> bool:
        """It was made before the record began, and came back."""
        return self.number == OLD

    @property
    def serial(self) -> str:
        """The serial on the frame."""
        return f"{'MB' if self.before_the_record else 'MT'}-{self.number:04d}"

    @property
    def size(self) -> str:
        """The size it is built in."""
        return "56" if self.before_the_record else SIZES[self.design][self.number % 3]

    @property
    def lead(self) -> str:
        """The welder who leads at its bench."""
        return "W01" if self.bench == "B1" else "W02"

    @property
    def joints(self) -> list[str]:
        """Every joint in the order of the work."""
        return [joint for stage in STAGES[self.design] for joint in stage]

    def stage_of(self, joint: str) -> int:
        """The stage a joint belongs to; a fitting the design does not know was added at the last."""
        return next((number for number, joints in enumerate(STAGES[self.design]) if joint in joints), 4)


def all_frames(pinned: set[int], settled: dict[tuple[int, int], date]) -> dict[int, Frame]:
    """Give the frames of all weeks; those pinned do not slip, and some reach a stage on a day of their own."""
    frames = {frame.number: frame for week in range(len(MONDAYS)) for frame in _week(week)}
    for number, frame in frames.items():
        if number % 17 == 3 and number not in pinned:
            late = 1 + (number // 17) % 3
            frame.days[INSPECTED:] = [working_days_later(day, late) for day in frame.days[INSPECTED:]]
    for (number, stage), day in settled.items():
        frames[number].days[stage] = day
    return frames


def _week(week: int) -> list[Frame]:
    designs = ("LST", "PLV", "LST", "WHB" if week % 2 == 0 else "PLV")
    return [_frame(4 * week + slot + 1, design, week, slot) for slot, design in enumerate(designs)]


def _frame(number: int, design: str, week: int, slot: int) -> Frame:
    start = working_days_later(MONDAYS[week], slot)
    bench = "B1" if slot in (0, 2) else "B2"
    return Frame(number, design, bench, [working_days_later(start, stage) for stage in range(13)])
