"""What the history screens show: the list of serials, and one frame's whole story."""

from dataclasses import dataclass
from typing import Any

from server.facts.orders import Packet
from server.facts.progress import JointProgress
from server.plan.picture_parts import Picture
from server.work.frame_history import FrameStory, JointStory


@dataclass(frozen=True, slots=True)
class SerialLine:
    """One serial on the list: its packet, how far it has come, how much is open on it."""

    packet: Packet
    stage: str
    open_stop: int
    open_decide: int
    shipped_to: str


@dataclass(frozen=True, slots=True)
class SerialList:
    """The serials that fit what was asked for."""

    asked: str
    lines: tuple[SerialLine, ...]
    total: int


@dataclass(frozen=True, slots=True)
class HistoryPage:
    """One frame's story with its picture, the joints' states and the checkpoint it is sealed under."""

    story: FrameStory
    picture: Picture | None
    state_of: dict[str, Any]
    sealed: str
    sees_customers: bool


def state_words(joint: JointStory, progress: JointProgress) -> str:
    """Say how a joint stands, in the words shown beside its mark."""
    if any(matter.keeps_the_frame for attempt in joint.attempts for matter in attempt.matters):
        return "open question"
    if progress.released:
        return "released"
    if progress.finished:
        return "finished"
    if progress.welded:
        return "begun"
    return "tacked" if progress.tacked else "not begun"


def states(story: FrameStory) -> dict[str, Any]:
    """Give each joint's state in words, and under `joint:quarters` the quarters that are closed."""
    found: dict[str, Any] = {}
    for joint in story.joints:
        progress = story.progress.joint(joint.joint.id)
        found[joint.joint.id] = state_words(joint, progress)
        found[f"{joint.joint.id}:quarters"] = _closed(progress)
    return found


def _closed(progress: JointProgress) -> tuple[str, ...]:
    return tuple(dict.fromkeys(quarter for run in progress.runs.values() for quarter in run))
