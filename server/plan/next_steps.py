"""What may come next on a frame, and why the rest may not, in words."""

from collections.abc import Iterable
from typing import NamedTuple

from server.facts.design import Design, Joint
from server.facts.entry import QUARTERS, Quarter
from server.facts.progress import FrameProgress, JointProgress
from server.plan.step_links import Link, links
from server.plan.steps import is_done, split_step


class Reason(NamedTuple):
    """Why a step has to wait: the step that comes first, and both as a sentence."""

    first: str
    words: str


class Step(NamedTuple):
    """The next thing on one joint or table: tack, a kind of run, release or check; `quarters` are still to be done."""

    step: str
    action: str
    joint: str
    allowed: bool
    blocked_by: tuple[Reason, ...] = ()
    quarters: tuple[Quarter, ...] = ()


def what_next(design: Design, done: FrameProgress) -> list[Step]:
    """The next step of every open joint and check: what may be done first, in the design's usual order."""
    waits: dict[str, list[Link]] = {}
    for link in links(design):
        waits.setdefault(link.step, []).append(link)
    held = {cover.seam for cover in design.covers}
    steps = [_next(joint, done, waits, joint.id in held) for joint in design.joints]
    steps += [_step(check.id, "check", check.id, [check.id], done, waits) for check in design.geometry]
    usual = {name: place for place, name in enumerate(dict.fromkeys([*design.order, *(j.id for j in design.joints)]))}
    open_steps = [step for step in steps if step and not is_done(step.step, done)]
    return sorted(open_steps, key=lambda step: (not step.allowed, usual.get(step.joint, -1)))


def _next(joint: Joint, done: FrameProgress, waits: dict[str, list[Link]], held: bool) -> Step | None:
    now = done.joint(joint.id)
    if not (now.tacked or now.welded):
        return _step(f"{joint.id}:tacked", "tack", joint.id, [f"{joint.id}:tacked"], done, waits)
    if not now.finished:
        return _run(joint, now, done, waits)
    if held:
        return _step(f"{joint.id}:released", "release", joint.id, [f"{joint.id}:released"], done, waits)
    return None


def _run(joint: Joint, now: JointProgress, done: FrameProgress, waits: dict[str, list[Link]]) -> Step:
    run = next((run for run in joint.runs if _left(now, run)), joint.runs[-1])
    begins, ends = not now.welded, run == joint.runs[-1]
    asked = [f"{joint.id}:{state}" for state, reached in (("welded", begins), ("finished", ends)) if reached]
    reached = "finished" if ends or not begins else "welded"
    step = _step(f"{joint.id}:{reached}", run, joint.id, asked, done, waits)
    return step._replace(quarters=_left(now, run))


def _left(now: JointProgress, run: str) -> tuple[Quarter, ...]:
    gone_over = {*now.runs.get(run, ()), *now.runs.get("repair", ())}
    return tuple(quarter for quarter in QUARTERS if quarter not in gone_over)


def _step(
    step: str, action: str, joint: str, asked: list[str], done: FrameProgress, waits: dict[str, list[Link]]
) -> Step:
    wanted = (link for name in asked for link in waits.get(name, ()) if split_step(link.first)[0] != joint)
    blocked = tuple(_reasons(wanted, done))
    return Step(step, action, joint, not blocked, blocked)


def _reasons(wanted: Iterable[Link], done: FrameProgress) -> Iterable[Reason]:
    seen = set()
    for link in wanted:
        if not is_done(link.first, done) and link.first not in seen:
            seen.add(link.first)
            yield Reason(link.first, f"{link.reason}: {_ask(link.first, done)} first")


def _ask(step: str, done: FrameProgress) -> str:
    thing, state = split_step(step)
    if state == "released" and not done.joint(thing).finished:
        return f"finish and release {thing}"
    verbs = {"tacked": "tack", "welded": "weld", "finished": "finish", "released": "release", "": "make check"}
    return f"{verbs[state]} {thing}"
