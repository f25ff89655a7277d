"""Writes what is found only when history is held against today's rules: looks nobody asked for, a meter nobody had."""

import math
from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from itertools import pairwise

from demo_data.generator.crew import REVISED
from demo_data.generator.days import DAY, clock_of, show
from demo_data.generator.gas import Gas
from demo_data.generator.shop import bead_at_change
from demo_data.generator.story import Story
from demo_data.generator.weld import Weld


def find_unlooked(story: Story, welds: Iterable[Weld]) -> None:
    """Find the joints nobody was asked to look into before the revision, and insides darker than today's limit."""
    every = list(welds)
    removed = {(weld.frame.number, weld.joint, weld.attempt - 1) for weld in every}
    for weld in every:
        gone = (weld.frame.number, weld.joint, weld.attempt) in removed
        if weld.day >= REVISED or weld.seam.inside == "N":
            continue
        grades = [grade for _, grade in weld.inside_looks]
        if not grades and not gone:
            story.find("chance", weld.subject, "inside-colour", "decide", "unknown", "today")
        elif grades and grades[-1] == 2:
            story.find("chance", weld.subject, "inside-colour", "decide", "outside", "today")


def find_before_bead(story: Story, gas: Gas, welds: Iterable[Weld]) -> None:
    """Find what was welded on a purge line between a change of cylinder and the next bead, of which none was asked."""
    every = list(welds)
    beads = sorted((h.at, h.fields["line"], h.fields["result"]) for h in story.happenings if h.fields["kind"] == "bead")
    for line, changes in gas.by_line.items():
        for change in changes[1:]:
            after = next(((at, result) for at, of, result in beads if of == line and at >= change.at), None)
            if after is None or not line.endswith("P") or bead_at_change(clock_of(change.at).date()):
                continue
            severity = "note" if after[1] == "good" else "stop"
            for weld in every:
                ends = (weld.root, weld.fill, weld.wash)
                if weld.frame.bench == line[:2] and any(change.at < end < after[0] for end in ends):
                    story.find("chance", weld.subject, "weld-before-bead", severity, "outside", "today")


def forget_rested(story: Story, gas: Gas, welds: Iterable[Weld]) -> None:
    """Drop the changes after which, as far as is told, a line rested until its next bead: that bead came in time."""
    ends = sorted((end, f"{weld.frame.bench}-P") for weld in welds for end in (weld.root, weld.fill, weld.wash))
    beads = sorted((h.at, h.fields["line"]) for h in story.happenings if h.fields["kind"] == "bead")
    rested = {
        f"{line}@{show(int(change))}"
        for line, changes in gas.by_line.items()
        for change, until in pairwise([*(each.at for each in changes), math.inf])
        if not bead_at_change(clock_of(int(change)).date())
        and _first_of(beads, line, change, until) < _first_of(ends, line, change, until)
    }
    asked = "purge-bead-at-change"
    story.truth[:] = [row for row in story.truth if row["question"] != asked or row["subject"] not in rested]


def _first_of(told: Iterable[tuple[int, str]], line: str, since: float, until: float) -> float:
    return next((at for at, of in told if of == line and since < at < until), until)


def find_no_dew_point(story: Story, used: Iterable[tuple[str, date]]) -> None:
    """Find the weeks of use without a dew point, from before there was a meter."""
    last: dict[tuple[str, date], date] = defaultdict(lambda: date.min)
    for bench, day in used:
        week = day - day.weekday() * DAY
        if day < REVISED:
            last[bench, week] = max(last[bench, week], day)
    for (bench, _), day in sorted(last.items()):
        for line in ("T", "P"):
            story.find("chance", f"{bench}-{line}@{day}", "dew-point-due", "note", "unknown", "today")
