"""What a gate refuses and why: a hold point, the final inspection, a release, a shipment; facts are never refused."""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from server.facts.deciding import Permission
from server.facts.judged import Severity
from server.facts.progress import FrameProgress
from server.facts.subject import read_joint_subject
from server.judgement.matters import Matter

Gate = Literal["hold point", "final inspection", "release", "ship"]
_BEFORE: dict[Gate, Gate] = {"release": "final inspection", "ship": "release"}


class Reason(NamedTuple):
    """One reason a gate stays shut, in shop words; `key` names the open finding where there is one."""

    words: str
    key: str | None = None


class AtTheGate(NamedTuple):
    """What a gate looks at, all as known at one record position."""

    gate: Gate
    joints: tuple[str, ...]
    """The structural joints of the design."""
    progress: FrameProgress
    matters: Sequence[Matter]
    permissions: Sequence[Permission]
    joint: str | None = None
    by: str | None = None
    welders: frozenset[str] = frozenset()
    """Who welded the joint of a hold point."""
    silent_tablets: tuple[str, ...] = ()


def why_shut(at: AtTheGate) -> list[Reason]:
    """Give every reason a gate stays shut; an empty list opens it."""
    if at.gate == "hold point":
        return [*_unfinished_joint(at), *_own_joint(at), *_open_on(at.matters, at.joint, only_stop=True)]
    return [*_missing_step(at), *_unfinished(at), *_silent(at), *_open_on(at.matters, None, only_stop=False)]


def _unfinished_joint(at: AtTheGate) -> list[Reason]:
    joint = at.joint or ""
    if at.progress.joint(joint).finished:
        return []
    return [Reason(f"{joint} is not welded all round yet; finish it, look at it, then release it.")]


def _own_joint(at: AtTheGate) -> list[Reason]:
    if at.by in at.welders:
        return [Reason(f"{at.by} welded {at.joint}; somebody else looks at it and releases it.")]
    return []


def _missing_step(at: AtTheGate) -> list[Reason]:
    before = _BEFORE.get(at.gate)
    if before is None or any(each.permits == before for each in at.permissions):
        return []
    return [Reason(f"The {before} is not signed yet; it comes first.")]


def _unfinished(at: AtTheGate) -> list[Reason]:
    return [
        Reason(f"{joint} is not welded all round.") for joint in at.joints if not at.progress.joint(joint).finished
    ]


def _silent(at: AtTheGate) -> list[Reason]:
    return [
        Reason(f"{tablet} had this frame open and has not been heard since; let it send what it holds first.")
        for tablet in at.silent_tablets
    ]


def _open_on(matters: Iterable[Matter], joint: str | None, *, only_stop: bool) -> list[Reason]:
    return [
        Reason(_told(matter), matter.finding.key)
        for matter in matters
        if matter.keeps_the_frame
        and (not only_stop or matter.finding.verdict.severity is Severity.STOP)
        and (joint is None or _is_on(matter, joint))
    ]


def _told(matter: Matter) -> str:
    verdict = matter.finding.verdict
    return f"{verdict.subject}: {verdict.message} ({matter.state})"


def _is_on(matter: Matter, joint: str) -> bool:
    subject = read_joint_subject(matter.finding.verdict.subject)
    return subject is not None and subject.joint == joint
