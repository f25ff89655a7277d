"""Names in a design that nothing bears: an unknown joint, member, node or quarter, and names borne twice."""

import difflib
from collections import Counter
from collections.abc import Iterable, Iterator

from server.plan.steps import HOURS, STATES, split_step
from server.plan.written import WrittenDesign
from server.sheets.complaint import Complaint
from server.sheets.places import Path
from server.sheets.sheet import Sheet


def references_wrong(design: WrittenDesign, sheet: Sheet) -> list[Complaint]:
    """Every name that points nowhere, with the nearest one that exists."""
    return [
        *_borne_twice(design, sheet),
        *_members_wrong(design, sheet),
        *_joints_wrong(design, sheet),
        *_covers_wrong(design, sheet),
        *_needs_wrong(design, sheet),
        *_gas_names_wrong(design, sheet),
    ]


def unknown(
    path: Path, names: Iterable[str | None], known: Iterable[str], what: str, sheet: Sheet
) -> Iterator[Complaint]:
    """A complaint for each name that is not among the known ones."""
    known = list(known)
    for name in names:
        if name is not None and name not in known:
            near = difflib.get_close_matches(name, known, n=1)
            instead = f"Write {near[0]} if you meant that." if near else f"Add the {what}, or mend the name."
            yield sheet.complain(
                path, f"a {what} of this design: {', '.join(known) or 'none yet'}", instead, value=name
            )


def _borne_twice(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    for field in ("members", "joints", "setups", "geometry"):
        things = getattr(design, field)
        counted = Counter(thing.id for thing in things)
        for index, thing in enumerate(things):
            if counted[thing.id] > 1:
                counted[thing.id] = 1
                yield sheet.complain((field, index, "id"), "a name of its own", "Rename one of them.")


def _members_wrong(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    for index, member in enumerate(design.members):
        yield from unknown(("members", index, "between"), member.between, design.nodes, "node", sheet)
        if member.wall_mm * 2 >= member.od_mm and member.closed:
            expected = f"a wall under half of od_mm = {member.od_mm:g}"
            yield sheet.complain(("members", index, "wall_mm"), expected, "Mend it, or write closed = false.")


def _joints_wrong(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    members = [member.id for member in design.members]
    for index, joint in enumerate(design.joints):
        path: Path = ("joints", index)
        yield from unknown((*path, "parts"), joint.parts, members, "member", sheet)
        if joint.part_way is None:
            yield from unknown((*path, "at"), [joint.at], design.nodes, "node", sheet)
        else:
            drawn = [member.id for member in design.members if len(member.between) > 1]
            yield from unknown((*path, "at"), [joint.at], drawn, "member that is drawn as a line", sheet)


def _covers_wrong(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    joints = [joint.id for joint in design.joints]
    for index, cover in enumerate(design.covers):
        path: Path = ("covers", index)
        yield from unknown((*path, "seam"), [cover.seam], joints, "joint", sheet)
        yield from unknown((*path, "by"), [cover.by], joints, "joint", sheet)
        if cover.quarter not in HOURS:
            yield sheet.complain((*path, "quarter"), f"one quarter: {', '.join(HOURS)}", "Name the quarter it hides.")
        if cover.seam == cover.by:
            yield sheet.complain((*path, "by"), "another joint: no seam hides itself", "Name what hides it.")


def _needs_wrong(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    for index, need in enumerate(design.needs):
        yield from _steps_wrong(("needs", index, "step"), [need.step], design, sheet)
        yield from _steps_wrong(("needs", index, "first"), need.first, design, sheet)


def _steps_wrong(path: Path, steps: Iterable[str], design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    joints, checks = [joint.id for joint in design.joints], [check.id for check in design.geometry]
    for step in steps:
        thing, state = split_step(step)
        yield from unknown(path, [thing], joints if state else checks, "joint" if state else "geometry check", sheet)
        if state and state not in STATES:
            expected = f"joint:state with a state of {', '.join(STATES)}"
            yield sheet.complain(path, expected, f"Write {thing}:finished, for one.", value=step)


def _gas_names_wrong(design: WrittenDesign, sheet: Sheet) -> Iterator[Complaint]:
    members, joints = [member.id for member in design.members], [joint.id for joint in design.joints]
    for index, hole in enumerate(design.holes):
        yield from unknown(("holes", index), [hole.member, hole.into], members, "member", sheet)
        yield from unknown(("holes", index, "joint"), [hole.joint], joints, "joint", sheet)
    for index, setup in enumerate(design.setups):
        path: Path = ("setups", index)
        yield from unknown((*path, "members"), setup.members, members, "member", sheet)
        yield from unknown((*path, "joints"), setup.joints, joints, "joint", sheet)
        yield from unknown((*path, "inlet"), [setup.inlet], setup.members, "member of this set-up", sheet)
        outlets = [outlet.member for outlet in setup.outlets]
        yield from unknown((*path, "outlets"), outlets, setup.members, "member of this set-up", sheet)
    yield from unknown(("order",), design.order, joints, "joint", sheet)
