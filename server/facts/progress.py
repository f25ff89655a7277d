"""How far a frame has come: per joint what is tacked, fused, finished, released and hidden; which checks are good."""

from pydantic import Field

from server.facts.checking import Result
from server.facts.entry import Quarter
from server.facts.noun import Noun
from server.facts.passage import Stage


class JointProgress(Noun):
    """One joint in its present attempt: the quarters each kind of run has gone over, and what is hidden already."""

    attempt: int = 1
    tacked: bool = False
    runs: dict[str, tuple[Quarter, ...]] = Field(default_factory=dict)
    finished: bool = False
    released: bool = False
    covered: tuple[Quarter, ...] = ()

    @property
    def welded(self) -> bool:
        """Some run of the arc has begun."""
        return any(self.runs.values())


class FrameProgress(Noun):
    """One frame: its joints by id, the last result of each geometry check, the stages it has reached."""

    joints: dict[str, JointProgress] = Field(default_factory=dict)
    geometry: dict[str, Result] = Field(default_factory=dict)
    stages: tuple[Stage, ...] = ()

    def joint(self, joint: str) -> JointProgress:
        """The joint's progress; an untouched joint has none yet."""
        return self.joints.get(joint, JointProgress())
