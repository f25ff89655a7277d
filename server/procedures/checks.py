"""Everything in a written procedure that its fields alone cannot show to be wrong, as complaints with their lines."""

from collections.abc import Iterator

from server.procedures.limit_checks import limit_wrong
from server.procedures.support_checks import material_unsupported, support_wrong, unsupported
from server.procedures.written import WrittenProcedure
from server.sheets.complaint import Complaint
from server.sheets.sheet import Sheet


def everything_wrong(written: WrittenProcedure, sheet: Sheet) -> list[Complaint]:
    """Units first; only limits and records whose units are right are then held against each other."""
    wrong = [
        *_repair_wrong(written, sheet),
        *(c for index in range(len(written.supports)) for c in support_wrong(written, index, sheet)),
        *(c for name, index in _numbered(written) for c in limit_wrong(written, name, index, sheet)),
        *_said_twice(written, sheet),
    ]
    return wrong or [*material_unsupported(written, sheet), *unsupported(written, sheet)]


def _numbered(written: WrittenProcedure) -> list[tuple[str, int]]:
    return [(name, index) for name, limits in written.limits.items() for index in range(len(limits))]


def _repair_wrong(written: WrittenProcedure, sheet: Sheet) -> Iterator[Complaint]:
    if written.stage == "repair" and not written.repairs:
        yield sheet.complain(("repairs",), "the kinds of joint it may repair", 'Add repairs = ["..."].')
    if written.stage == "repair" and not written.approvals:
        yield sheet.complain(("approvals",), "who signs each repair", 'Add approvals = [["quality lead"]].')


def _said_twice(written: WrittenProcedure, sheet: Sheet) -> Iterator[Complaint]:
    seen = set()
    for name, index in _numbered(written):
        limit = written.limits[name][index]
        place = (name, limit.side, limit.zone, limit.line, limit.runs, limit.joint_kinds, limit.plan.where)
        if place in seen:
            expected = "one limit for each side, zone, line, run, joint kind and inside view"
            yield sheet.complain(("limits", name, index), expected, "Take one out or say where each holds.")
        seen.add(place)
