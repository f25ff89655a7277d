"""How far a frame has come and what may come next: the tablet reckons it offline as the server does."""

import random
from collections.abc import Iterable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from server.facts.design import Design
from server.facts.log import LOG_ENTRY
from server.plan.next_steps import Reason, what_next
from server.plan.progress import frame_progress
from server.plan.reading import read_design
from server.work.bench_frames import needs_told
from tests.browser.scripts import run, script_page, swapped

DESIGNS = Path(__file__).resolve().parents[2] / "demo_data" / "designs"
_QUARTERS = ("q12", "q3", "q6", "q9")
_RECKON = """
const steps = await import('/next_steps.js');
return given.map(({frame, entries}) => {
  const progress = it.progressOf(frame, it.standing(entries));
  const names = ['step', 'action', 'joint', 'allowed', 'blocked', 'quarters', 'waits'];
  return steps.nextSteps(frame, progress).map((each) => names.map((name) => each[name]));
});
"""


def told(design: Design) -> dict[str, Any]:
    """The design as a sheet tells it, as far as steps go."""
    hiding = {cover.seam for cover in design.covers}
    joints = [{"id": j.id, "runs": list(j.runs), "hides": ["x"] if j.id in hiding else []} for j in design.joints]
    checks = [{"id": check.id} for check in design.geometry]
    frame = {"frame": "A-1", "joints": joints, "geometry": checks}
    return frame | {"needs": needs_told(design), "order": list(design.order)}


def story(design: Design, dice: random.Random, length: int) -> list[dict[str, Any]]:
    """Entries of one frame in a likely order, with cut-outs, withdrawals and attempts among them."""
    entries: list[dict[str, Any]] = []
    attempts = dict.fromkeys((joint.id for joint in design.joints), 1)
    for seq in range(1, length + 1):
        entry = _entry(design, dice, attempts, entries)
        at = datetime.fromtimestamp(1_742_300_000 + 60 * seq, UTC).strftime("%Y-%m-%dT%H:%M:%S.000Z")
        head = {"id": f"T:b:{seq}", "device": "T", "boot": "b", "seq": seq, "who": "X"}
        entries.append(head | {"device_time": at, "happened": at} | entry)
    return entries


def _entry(
    design: Design, dice: random.Random, attempts: dict[str, int], before: list[dict[str, Any]]
) -> dict[str, Any]:
    kind = dice.choices(("pass", "tack", "release", "geometry", "removed", "correction"), (60, 20, 6, 6, 5, 4))[0]
    if kind == "correction" and before:
        return {"kind": kind, "of": dice.choice(before)["id"], "withdraw": True, "reason": "logged by mistake"}
    if kind == "geometry" and design.geometry:
        result = dice.choice(("good", "good", "failed"))
        return {"kind": kind, "frame": "A-1", "check": dice.choice(design.geometry).id, "result": result}
    joint = dice.choice(design.joints[:8])
    late = attempts[joint.id] > 1 and dice.random() < 0.3
    place = {"frame": "A-1", "joint": joint.id, "attempt": attempts[joint.id] - late}
    quarters = list(_QUARTERS) if dice.random() < 0.6 else [dice.choice(_QUARTERS)]
    if kind == "removed":
        attempts[joint.id] += not late
        return {"kind": kind, **place, "method": "cut out", "quarters": quarters}
    if kind == "release":
        return {"kind": kind, **place}
    if kind == "tack":
        return {"kind": kind, **place, "removed": dice.random() < 0.1}
    run_ = dice.choice((*joint.runs, *joint.runs, "wash", "repair"))
    return {"kind": "pass", **place, "run": run_, "torch_line": "L", "quarters": quarters}


def by_server(design: Design, entries: list[dict[str, Any]]) -> list[list[Any]]:
    read = [LOG_ENTRY.validate_python(_as_read(entry)) for entry in entries]
    steps = what_next(design, frame_progress(design, read))
    return [
        [
            *(s.step, s.action, s.joint, s.allowed, [r.words for r in s.blocked_by]),
            list(s.quarters or _QUARTERS),
            once_each(s.blocked_by),
        ]
        for s in steps
    ]


def once_each(reasons: Iterable[Reason]) -> list[str]:
    """Each reason once, with all the things it names."""
    things: dict[str, list[str]] = {}
    for each in reasons:
        thing = each.first.partition(":")[0]
        things.setdefault(each.words.removesuffix(f" {thing} first"), []).append(thing)
    return [f"{why} {', '.join(named)} first" for why, named in things.items()]


def _as_read(entry: dict[str, Any]) -> dict[str, Any]:
    return {name: tuple(value) if isinstance(value, list) else value for name, value in entry.items()}


def by_script(browser: Browser, design: Design, stories: list[list[dict[str, Any]]], **altered: Any) -> Any:
    page = script_page(browser, altered)
    try:
        return run(page, "progress.js", _RECKON, [{"frame": told(design), "entries": each} for each in stories])
    finally:
        page.close()


def read(name: str) -> Design:
    return read_design((DESIGNS / f"{name}.toml").read_text(encoding="utf-8"), name)


@pytest.mark.parametrize("name", ["lst", "whb", "plv"])
def test_tablet_and_server_allow_the_same_steps(browser: Browser, name: str) -> None:
    """After 30 drawn stories of up to 90 entries both name the same steps, in the same order, for the same reasons."""
    design, dice = read(name), random.Random(name)
    stories = [story(design, dice, dice.randrange(91)) for _ in range(30)]
    assert by_script(browser, design, stories) == [by_server(design, each) for each in stories]


@pytest.mark.parametrize(
    ("script", "old", "new"),
    [
        ("next_steps.js", "finish and release", "release"),
        ("next_steps.js", "[...before, ...things]", "things"),
        ("progress.js", "joint.runs.repair ?? []", "[]"),
        ("progress.js", "if (withdraw) known.delete(of);", "if (withdraw) known.get(of);"),
        ("progress.js", "if (attempt < now.attempt) return now;", ""),
    ],
)
def test_a_tablet_that_reckons_otherwise_is_caught(browser: Browser, script: str, old: str, new: str) -> None:
    """Control: other words, a joint left out, repairs and old attempts miscounted, withdrawals kept: each shows."""
    design, dice = read("lst"), random.Random("lst")
    stories = [story(design, dice, dice.randrange(91)) for _ in range(30)]
    altered = {script: swapped(old, new)}
    assert by_script(browser, design, stories, **altered) != [by_server(design, each) for each in stories]
