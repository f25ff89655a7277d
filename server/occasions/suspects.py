"""Suspect sets from failed checks: the widest stretch, only what used the failed thing, and why neighbours are out."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from server.facts.moment import show_moment
from server.facts.suspect import LeftOut, Suspect, SuspectSet, Whereabouts
from server.occasions.failed_checks import FailedCheck, in_stretch
from server.occasions.narrowed import Cut, Rested, cleared_by
from server.occasions.tables import Tables
from server.occasions.uses import FAR_MS, Use

_AROUND_MS = 86_400_000


def suspect_set(tables: Tables, failed: FailedCheck) -> SuspectSet:
    """Give the set a failed check opens over all passes known."""
    members = reached(tables, failed)
    return SuspectSet(
        check=failed.check,
        subject=failed.subject,
        kind=failed.kind,
        thing=failed.thing,
        since_ms=failed.since_ms,
        until_ms=failed.until_ms,
        suspects=tuple(_suspect(tables, failed, uses) for _, uses in sorted(members.items())),
        left_out=tuple(_neighbours(tables, failed, members)),
    )


def reached(tables: Tables, failed: FailedCheck) -> dict[str, list[Use]]:
    """Give the passes a failed check puts in doubt, in true time, by the joint and attempt they are of."""
    found: dict[str, list[Use]] = defaultdict(list)
    for use in _users(tables, failed, failed.since_ms, failed.until_ms):
        if why_not(tables, failed, use) is None:
            found[use.subject].append(use)
    return found


def stays(tables: Tables, failed: FailedCheck, uses: Sequence[Use]) -> bool:
    """Tell whether no signed narrowing lets a joint out with these passes, which the check put in doubt."""
    return _cleared(tables, failed, uses) is None


def because(failed: FailedCheck, uses: Sequence[Use]) -> str:
    """Say why a joint with these passes is in a set."""
    return f"used {failed.thing}, {show_moment(uses[0].at.at_ms)} to {show_moment(uses[-1].at.at_ms)}"


def failed_about(tables: Tables, uses: Iterable[Use]) -> list[FailedCheck]:
    """Give the failed checks of what some passes used, each once."""
    found: dict[str, FailedCheck] = {}
    for use in uses:
        reader = use.oxygen_by or tables.uses.analyser_at(use.purge_line, use.at.at_ms)
        things = [*(("bead", line) for line in use.lines), ("coupon", use.welder)]
        things += [(kind, each) for kind in ("calibration", "cross-check") for each in (reader, use.machine) if each]
        found |= {failed.check: failed for kind, thing in things for failed in tables.failed.of(kind, thing)}
    return list(found.values())


def stays_in(tables: Tables, failed: FailedCheck, uses: Iterable[Use]) -> bool:
    """Tell whether the set of a failed check still holds a joint with these passes: reached, and let out by nothing."""
    in_doubt = [use for use in uses if why_not(tables, failed, use) is None]
    return bool(in_doubt) and stays(tables, failed, in_doubt)


def why_not(tables: Tables, failed: FailedCheck, use: Use) -> str | None:
    """Tell the fact that keeps a pass out of a set; none when nothing does."""
    if not _used(tables, failed, use):
        return f"did not use {failed.thing}"
    if failed.procedures and tables.procedure_of(use) not in failed.procedures:
        return f"under {tables.procedure_of(use)}, which this check does not qualify"
    if in_stretch(failed, use.at.at_ms):
        return None
    if failed.since_ms is not None and use.at.at_ms <= failed.since_ms:
        return f"before the last good check, {show_moment(failed.since_ms)}"
    return f"after the failed check, {show_moment(failed.until_ms)}"


def _used(tables: Tables, failed: FailedCheck, use: Use) -> bool:
    if failed.kind == "bead":
        return failed.thing in use.lines
    if failed.kind == "coupon":
        return failed.thing == use.welder
    reader = use.oxygen_by or tables.uses.analyser_at(use.purge_line, use.at.at_ms)
    return failed.thing in (reader, use.machine)


def _users(tables: Tables, failed: FailedCheck, since_ms: int | None, until_ms: int) -> Sequence[Use]:
    """The passes that used the failed thing, ended after one time and before another, found without all others."""
    after_ms = -FAR_MS if since_ms is None else since_ms
    if failed.kind == "bead":
        return tables.uses.on_line(failed.thing, after_ms, until_ms)
    if failed.kind == "coupon":
        return tables.uses.by_whom(failed.thing, after_ms, until_ms)
    return tables.uses.resting_on(failed.thing, after_ms, until_ms)


def _suspect(tables: Tables, failed: FailedCheck, uses: Sequence[Use]) -> Suspect:
    first = uses[0]
    cut = _cleared(tables, failed, uses)
    joint = tables.joint_of(first.frame, first.joint)
    return Suspect(
        subject=first.subject,
        frame=first.frame,
        structural=joint.structural if joint else True,
        passes=tuple(use.entry for use in uses),
        because=because(failed, uses),
        whereabouts=_whereabouts(tables, first),
        cleared_by=cut.id if cut else None,
        cleared_reason=cut.reason if cut else "",
    )


def _cleared(tables: Tables, failed: FailedCheck, uses: Sequence[Use]) -> Cut | None:
    cuts = tables.cuts.of(failed.check)
    if not cuts:
        return None
    over = any(tables.over_by_curve(use) for use in uses)
    return cleared_by(cuts, Rested(uses[0].subject, tuple(use.at.at_ms for use in uses), over))


def _whereabouts(tables: Tables, use: Use) -> Whereabouts:
    if tables.uses.made_again(use):
        return "removed"
    if use.frame in tables.shipped:
        return "shipped"
    drawing = tables.drawing_of(use.frame)
    hiding = {cover.by for cover in drawing.covers.get(use.joint, ())} if drawing else set()
    if hiding & tables.uses.welded(use.frame):
        return "covered"
    return "in work"


def _neighbours(tables: Tables, failed: FailedCheck, members: Iterable[str]) -> list[LeftOut]:
    """Joints of the same frames, and what used the same thing on the days around, that are not in the set."""
    inside = set(members)
    frames = {subject.partition("/")[0] for subject in inside}
    since_ms = failed.since_ms if failed.since_ms is not None else failed.until_ms
    found: dict[str, str] = {}
    close = _users(tables, failed, since_ms - _AROUND_MS - 1, failed.until_ms + _AROUND_MS + 1)
    beside = [use for frame in frames for use in tables.uses.by_frame.get(frame, ())]
    for use in tables.uses.in_order([*close, *beside]):
        if use.subject not in inside:
            found.setdefault(use.subject, why_not(tables, failed, use) or "")
    return [LeftOut(subject, why) for subject, why in sorted(found.items())]
