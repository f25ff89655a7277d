"""Makes every weld of the history: each joint of each frame once, and again where it had to be made again."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date

from demo_data.generator.crew import welder_of
from demo_data.generator.days import DAY, LAST
from demo_data.generator.dice import Dice
from demo_data.generator.fates import draw_fate
from demo_data.generator.frames import Frame
from demo_data.generator.joints import STAGES, seam
from demo_data.generator.numbers import MEAN_A, SPEED, TRAVEL
from demo_data.generator.plan import Pin, Remake
from demo_data.generator.shop import Shop
from demo_data.generator.weld import Weld

BenchDays = dict[tuple[str, date], list[Weld]]
_HEAT = {"T1": 0.30, "T2": 0.36, "T3": 0.28, "R1": 0.32}
_REAM_DAY = 5
ALONE = frozenset({*STAGES["LST"][4], *STAGES["PLV"][4], "K09", "K10"})
"""Joints whose small piece hangs on nothing else, so that it can be thrown away."""
SCRAPPED = 0.45
"""The share of their chance events that ends so; about one joint in 400 of the whole history."""
MACHINE_ONLY = ("mean_current", "volts", "travel")


def all_welds(shop: Shop) -> BenchDays:
    """Give the welds of every bench and day, the older frame's first."""
    days: BenchDays = defaultdict(list)
    for frame in shop.frames.values():
        for stage, joint in _ordinary(shop, frame):
            _add(days, _first(shop, frame, stage, joint))
    for remake in shop.plan.remakes:
        _add(days, _again(shop, remake))
    for weld in [weld for welds in days.values() for weld in welds if weld.fate]:
        if weld.fate and weld.fate.choice in ("rework", "repair", "scrap"):
            _add(days, _again(shop, _remake(weld)))
    return days


def _ordinary(shop: Shop, frame: Frame) -> Iterator[tuple[int, str]]:
    for stage, joints in enumerate(() if frame.before_the_record else STAGES[frame.design]):
        for joint in joints:
            if ("weld", (frame.number, joint)) not in shop.plan.skipped:
                yield stage, joint


def _add(days: BenchDays, weld: Weld) -> None:
    days[weld.frame.bench, weld.day].append(weld)


def _first(shop: Shop, frame: Frame, stage: int, joint: str) -> Weld:
    day = frame.days[stage]
    pin = shop.plan.pins.get((frame.number, joint, 1), Pin())
    welder = pin.welder or welder_of(frame, joint, day, barred=day in shop.barred)
    settled = frame.number in shop.plan.frames or (frame.bench, day) in shop.plan.quiet_days
    # Of the last two days nothing could be decided before the history ends.
    quiet = settled or day >= LAST - DAY
    weld = Weld(frame, joint, 1, day, welder, seam(joint).procedure, pin, quiet, stage=stage)
    return _paced(shop, weld)


def _again(shop: Shop, remake: Remake) -> Weld:
    frame = shop.frames[remake.number]
    pin = remake.pin or shop.plan.pins.get((remake.number, remake.joint, remake.attempt), Pin())
    procedure = remake.procedure or seam(remake.joint).procedure
    welder = pin.welder or welder_of(frame, remake.joint, remake.day, barred=True)
    stage = frame.stage_of(remake.joint) if remake.stage is None else remake.stage
    weld = Weld(frame, remake.joint, remake.attempt, remake.day, welder, procedure, pin, True, stage=stage)
    weld.removed_at, weld.remake = remake.removed_at, remake
    return _paced(shop, weld)


def _remake(weld: Weld) -> Remake:
    procedure = "R1" if weld.fate and weld.fate.choice == "repair" else None
    method = "ground out over the place" if procedure else "cut out and dressed back"
    replaced = not weld.seam.structural or (weld.fate is not None and weld.fate.choice == "scrap")
    day = weld.frame.days[_REAM_DAY]
    return Remake(weld.frame.number, weld.joint, 2, day, procedure, method=method, piece_replaced=replaced)


def _paced(shop: Shop, weld: Weld) -> Weld:
    # At one joint the pace is the same in every attempt, so that only what is planted adds up to much heat.
    dice = shop.dice("pace", weld.frame.serial, weld.joint)
    low, high = TRAVEL[weld.procedure]
    mean_a = min(shop.settings(weld.frame.bench, weld.day, weld.procedure).mean, MEAN_A[weld.procedure][1])
    coolest = 0.6 * mean_a * 10.9 * 60 / (_HEAT[weld.procedure] * 0.94) / 1000
    weld.travel_mm_per_min = max(dice.normal(*SPEED[weld.welder], low, high), coolest)
    draw_fate(weld, Dice(shop.seed, "fate", weld.subject))
    if weld.fate and weld.fate.quantity in MACHINE_ONLY and not shop.counted(weld):
        weld.fate = None
    if weld.fate and weld.joint in ALONE and shop.dice("scrap", weld.subject).chance(SCRAPPED):
        weld.fate.choice = "scrap"
    return weld


def in_order(welds: Iterable[Weld]) -> list[Weld]:
    """Give a day's welds in the order they are laid: older frames first, what is made again last."""
    return sorted(welds, key=lambda weld: (weld.attempt > 1, weld.frame.number, weld.stage))
