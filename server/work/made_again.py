"""What a decision asked for and nobody has done yet: a scrapped joint made anew, a reworked one looked at again."""

from collections.abc import Iterator
from itertools import chain

from server.facts.deciding import Decision
from server.facts.subject import JointSubject, read_joint_subject
from server.facts.welding import Look, Pass, Tack
from server.judgement.gates import Reason
from server.work.frame_history import FrameStory, JointStory

_GONE = frozenset({"scrap", "regrade"})
_AGAIN = frozenset({"rework", "repair"})


def not_made_again(story: FrameStory) -> list[Reason]:
    """Give every reason a frame must wait although all its findings are decided."""
    return [*_scrapped(story), *_not_looked_at(story)]


def _scrapped(story: FrameStory) -> Iterator[Reason]:
    last: dict[str, Decision] = {key: each for each in story.decisions for key in each.findings}
    for key, decision in last.items():
        subject = key.partition("|")[0]
        joint = read_joint_subject(subject)
        if decision.choice in _GONE and _is_of(subject, joint, story.packet.frame):
            if joint is None:
                yield Reason(f"{decision.id}: {decision.choice} of the whole frame; its serial is retired.", key)
            elif story.progress.joint(joint.joint).attempt <= joint.attempt:
                yield Reason(f"{joint.joint} is {decision.choice} by {decision.id} and not made again yet.", key)


def _is_of(subject: str, joint: JointSubject | None, frame: str) -> bool:
    return joint.frame == frame if joint else subject.partition("@")[0].partition("/")[0] == frame


def _not_looked_at(story: FrameStory) -> Iterator[Reason]:
    joints = {each.joint.id: each for each in story.joints}
    of_joints = (m for each in story.joints for attempt in each.attempts for m in attempt.matters)
    for matter in chain(of_joints, story.frame_matters):
        if matter.state != "decided" or matter.decision is None or matter.decision.choice not in _AGAIN:
            continue
        found = read_joint_subject(matter.finding.verdict.subject)
        if found is None or not _looked_at(joints[found.joint], matter.decision):
            yield Reason(
                f"{matter.finding.verdict.subject}: {matter.decision.choice} by {matter.decision.id}, "
                "not looked at since; somebody other than its welder logs a look, or a later decision follows.",
                matter.finding.key,
            )


def _looked_at(joint: JointStory, decision: Decision) -> bool:
    """A look counts when it was made and came in after the decision, by somebody who welded nothing there."""
    told = [each for attempt in joint.attempts for each in attempt.told]
    welders = {each.entry.who for each in told if isinstance(each.entry, Pass | Tack)}
    signed_ms = max(each.at for each in decision.signatures)
    return any(
        isinstance(each.entry, Look)
        and each.entry.answer == "graded"
        and each.entry.who not in welders
        and min(each.stamp.at_ms, each.recorded.received_ms) > signed_ms
        for each in told
    )
