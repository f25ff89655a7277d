"""How fast occasions are built and judged; `python -m tests.benchmarks.judging_speed 200` prints it for 200 frames."""

import gc
import json
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from server.facts.moment import show_moment
from server.facts.occasion_pass import PassOccasion
from server.facts.orders import Packet
from server.facts.recorded import Recorded
from server.judgement.book import THEN
from server.judgement.judge import judge_all
from server.occasions.build import Shop
from server.occasions.known import Known
from tests.judgement.barrow_works import registers_with
from tests.judgement.log_language import read_log

SHARED = ("bead", "check", "cylinder", "sleeve")
MONDAY = date(2031, 1, 6)
SETTINGS = (
    "peak_current=80 background_current=20 on_time=30 frequency=2 pre_flow=3 post_flow=20 torch_flow=8 purge_flow=3"
)
COUNTED = "mean_current=40.{0} volts=10.{0} arc_on=7{0}.{1} oxygen={2}"


@dataclass
class Shopful:
    """A shop of so many frames: what is known of it, and each frame's own entries."""

    known: Known
    frames: list[tuple[Packet, list[Recorded]]]


def shopful(frames: int, first: int = 0) -> Shopful:
    """Lay out frames, one a day from a first day on, with their beads, cylinder changes and sleeves."""
    numbers = range(first, first + frames)
    told = [line for number in numbers for line in _frame(number)]
    log = read_log("\n".join(told), MONDAY.isoformat(), {}, {})
    packet = {"kind": "packet", "design": "barrow", "size": "M", "issued": "2031-01-01T08:00"}
    packets = [packet | {"id": f"P{n}", "frame": f"X{n}"} for n in numbers]
    registers = registers_with(packets, {})
    of_frame: dict[str, list[Recorded]] = {f"X{n}": [] for n in numbers}
    for each in log.entries:
        if frame := getattr(each.entry, "frame", None):
            of_frame[frame].append(each)
    known = Known(registers, log.of(*SHARED), log.clocks, log.of("pass"), log.of("photo"))
    return Shopful(known, [(registers.packets[frame], entries) for frame, entries in of_frame.items()])


def _frame(number: int) -> list[str]:
    day = (MONDAY + timedelta(days=number)).isoformat()
    told = [f"{day} 07:00 bead N-T good", f"{day} 07:10 check air AN good"]
    if number % 7 == 0:
        told += [f"{day} 07:20 cylinder N-P on=CY-1", f"{day} 07:30 bead N-P good"]
    for place, joint in enumerate(("A1", "A2", "A3", "A4", "B1")):
        hour, digit = 8 + place, (number + place) % 10
        counted = COUNTED.format(digit, place, 5 + digit)
        told += [
            f"{day} {hour:02d}:00 gap {joint} gap=0.1 frame=X{number}",
            f"{day} {hour:02d}:05 tack {joint} colour=0 frame=X{number}",
            f"{day} {hour:02d}:10 purge P1 N-P on pre_purge_flow=5 frame=X{number}",
            f"{day} {hour:02d}:20 pass {joint} root {SETTINGS} {counted} frame=X{number}",
            f"{day} {hour:02d}:30 pass {joint} fill {SETTINGS} {counted} frame=X{number}",
            f"{day} {hour:02d}:40 look {joint} outside 0 frame=X{number}",
            f"{day} {hour:02d}:41 look {joint} inside 1 frame=X{number}",
        ]
    return told


def least_seconds(work: Callable[[], object], rounds: int) -> float:
    """The least time of many short runs: what the work takes when nothing else takes the machine."""
    took = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        took.append(time.process_time() - start)
    return min(took)


def judging_few(shop: Shopful) -> tuple[Callable[[], None], int]:
    """Give the work of building and judging a few frames, tacks and joints with them, and how many passes they have."""
    built, few = Shop(shop.known), shop.frames[20:23]
    passes = sum(type(each) is PassOccasion for packet, entries in few for each in built.frame(packet, entries))

    def work() -> None:
        for packet, entries in few:
            judge_all(built.frame(packet, entries), THEN)

    return work, passes


def judging_us_per_pass(shop: Shopful, rounds: int = 100) -> float:
    """Build and judge a few frames, tacks and joints with them; microseconds for one pass."""
    work, passes = judging_few(shop)
    return least_seconds(work, rounds) / passes * 1e6


def everything_s(shop: Shopful) -> float:
    """Build the tables, judge every frame and everything shared; seconds of processor."""
    gc.collect()
    start = time.process_time()
    built = Shop(shop.known)
    for packet, entries in shop.frames:
        judge_all(built.frame(packet, entries), THEN)
    judge_all(built.shared(), THEN)
    return time.process_time() - start


def parsing(shop: Shopful, passes: int) -> Callable[[], None]:
    """Give the work of parsing so many passes as they are sent, without making anything of them, for comparison."""
    told = [json.dumps(_as_sent(each)) for each in shop.known.passes[:passes]]

    def work() -> None:
        for each in told:
            json.loads(each)

    return work


def parsing_us_per_pass(shop: Shopful, rounds: int = 100) -> float:
    """Parse passes as they are sent; microseconds for one."""
    return least_seconds(parsing(shop, 30), rounds) / 30 * 1e6


def _as_sent(recorded: Recorded) -> dict[str, object]:
    told = recorded.entry.model_dump()
    for name in ("happened", "device_time", "arc_started"):
        told[name] = show_moment(told[name]) if told[name] is not None else None
    told["values"] = {name: {**each, "value": str(each["value"])} for name, each in told["values"].items()}
    return told


if __name__ == "__main__":
    many = shopful(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
    print(f"{judging_us_per_pass(many):.0f} µs to build and judge one pass, its tacks and its joint with it")
    print(f"{parsing_us_per_pass(many):.0f} µs to parse one pass as it is sent, for comparison")
    print(f"{everything_s(many):.2f} s for {len(many.known.passes)} passes, all rules, everything shared")
