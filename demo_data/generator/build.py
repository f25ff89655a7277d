"""Builds the story: the plan first, then bench after bench and day after day, then what the incidents add."""

from collections import defaultdict
from collections.abc import Callable
from datetime import date

from demo_data.generator.bench_day import lay_day, sessions_of
from demo_data.generator.bench_log import tell_opened, tell_removed, tell_sessions
from demo_data.generator.days import HOUR, LAST, at, clock_of, working_days_later
from demo_data.generator.frames import OLD, all_frames
from demo_data.generator.gas import LINES, lay_gas
from demo_data.generator.incidents.old_frame import old_frame
from demo_data.generator.joints import BRIDGES
from demo_data.generator.noise_told import tell_claims
from demo_data.generator.oxygen import Oxygen
from demo_data.generator.papers_told import tell_papers, tell_shipments
from demo_data.generator.passage import tell_geometry, tell_passage, tell_releases
from demo_data.generator.plan import Plan
from demo_data.generator.seam_log import SeamLog
from demo_data.generator.selection import Selection, keep_what_is_told
from demo_data.generator.shift import Shift
from demo_data.generator.shop import Shop, quiet_spans
from demo_data.generator.sleeves import lay_sleeves, sleeve_for
from demo_data.generator.sleeves_told import tell_sleeves
from demo_data.generator.story import Story
from demo_data.generator.today import find_before_bead, find_no_dew_point, find_unlooked, forget_rested
from demo_data.generator.weld import Weld
from demo_data.generator.welds import all_welds, in_order

Progress = Callable[[int, int], None]


def make_shop(plan: Plan, seed: int, cards: dict[tuple[str, str], str]) -> Shop:
    """Lay out frames, gas and sleeves."""
    frames = all_frames(plan.frames, plan.days)
    frames[OLD] = old_frame()
    sleeves = lay_sleeves(plan)
    facts = plan.facts
    return Shop(
        seed, plan, frames, lay_gas(plan, seed), sleeves, sleeve_for(sleeves), cards,
        facts.get("spare analyser", (0, 0)), facts.get("drawer", (0, 0)), frozenset(facts.get("barred", ())),
    )  # fmt: skip


def tell_story(shop: Shop, selection: Selection, progress: Progress | None = None) -> Story:
    """Write down everything the selection asks for, in no particular order yet."""
    story = Story(shop.seed)
    days = all_welds(shop)
    told = selection.frames(shop)
    benches = sorted({day for bench_day in days for day in bench_day[1:]})
    shared = selection.days(days, told)
    welds: dict[int, list[Weld]] = defaultdict(list)
    used = frozenset(key for key, own in days.items() if any(weld.frame.number in told for weld in own))
    for number, day in enumerate(benches):
        if day in shared and day <= LAST:
            _tell_day(shop, story, days, day, told, welds, used)
        if progress:
            progress(number + 1, len(benches))
    for frame in (shop.frames[number] for number in sorted(told - {OLD})):
        tell_passage(shop, story, frame)
        tell_geometry(shop, story, frame, welds[frame.number])
        tell_releases(shop, story, frame, welds[frame.number])
        tell_papers(shop, story, frame, welds[frame.number])
    tell_shipments(shop, story, told)
    tell_claims(shop, story)
    tell_sleeves(shop, story, shared)
    hung = _tell_gas_before(shop, story, shared)
    for tell in selection.incidents(shop.plan):
        tell(shop, story)
    _find_late(story)
    every = [weld for own in welds.values() for weld in own]
    find_unlooked(story, every)
    find_before_bead(story, shop.gas, every)
    forget_rested(story, shop.gas, every)
    find_no_dew_point(story, used)
    keep_what_is_told(story, {shop.frames[number].serial for number in told}, shared, hung)
    return story


def _tell_day(
    shop: Shop, story: Story, days: dict[tuple[str, date], list[Weld]], day: date, told: set[int],
    welds: dict[int, list[Weld]], used: frozenset[tuple[str, date]],
) -> None:  # fmt: skip
    wet = shop.plan.facts.get("wetted", (0, 0))
    Shift(shop, story, day, wet[0] <= at(day, "12:00") < wet[1], used).tell()
    ended = at(day, "16:45")
    for bench in ("B1", "B2"):
        own = in_order(days.get((bench, day), []))
        ended = _lay_bench(shop, own, bench, day, ended)
        dice = shop.dice("sessions", bench, day)
        sessions = sessions_of(own, day, dice)
        oxygen = Oxygen(shop)
        oxygen.wetted = wet
        log = SeamLog(shop, story, oxygen)
        for weld in sorted(own, key=lambda w: w.first_arc):
            if weld.frame.number in told:
                tell_removed(shop, story, weld)
                log.tell(weld)
                welds[weld.frame.number].append(weld)
        tell_sessions(shop, story, sessions, day, told)
        tell_opened(shop, story, own, sessions, told)


def _find_late(story: Story) -> None:
    late = {h.fields["frame"] for h in story.happenings if h.late_reason and "frame" in h.fields}
    for frame in sorted(late):
        story.find("chance", frame, "late-entry", "note")


def _tell_gas_before(shop: Shop, story: Story, shared: set[date]) -> set[str]:
    """Write for every stretch of days told which cylinders hung when it begins; gives the changes, by line and day."""
    begins = [day for day in shared if working_days_later(day, -1) not in shared]
    hung: set[str] = set()
    for begin in sorted(begins):
        for line in LINES:
            change = [each for each in shop.gas.by_line[line] if each.at < at(begin, "00:00")][-1]
            day = clock_of(change.at).date()
            if day not in shared and f"{line}@{day}" not in hung:
                Shift(shop, story, day, wet=False).change(line[:2], change)
                hung.add(f"{line}@{day}")
    return hung


def _in_overtime(shop: Shop, weld: Weld) -> bool:
    if (weld.frame.number, weld.day) in shop.plan.overtime:
        return True
    return weld.frame.bench == "B2" and weld.welder == "W01" and weld.joint in BRIDGES


def _lay_bench(shop: Shop, welds: list[Weld], bench: str, day: date, free_from: int) -> int:
    """Lay a bench's day; what the other bench's welder does there comes when his own work is over."""
    late = [weld for weld in welds if _in_overtime(shop, weld)]
    usual = [weld for weld in welds if weld not in late]
    begin = shop.plan.facts.get(("begin", bench, day), at(day, "07:49"))
    dice = shop.dice("day", bench, day)
    ended = lay_day(usual, day, quiet_spans(shop, bench, day), begin, dice)
    if late:
        ended = lay_day(late, day, (), max(free_from, ended, at(day, "16:50")) + HOUR // 12, dice)
    return ended
