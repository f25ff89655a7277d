"""Tells findings on a seam that was cut out and made anew from those still in the frame."""

from collections.abc import Iterable

from server.facts.recorded import Recorded
from server.facts.subject import read_joint_subject
from server.facts.welding import Pass
from server.judgement.matters import Matter
from server.record.reads import Reads


class LastMade:
    """The last attempt at each joint; a repair mends the seam it finds and makes none anew."""

    def __init__(self, told: Iterable[Recorded]) -> None:
        self._last: dict[tuple[str, str], int] = {}
        for entry in (each.entry for each in told):
            if isinstance(entry, Pass) and entry.run != "repair":
                key = (entry.frame, entry.joint)
                self._last[key] = max(entry.attempt, self._last.get(key, 0))

    def removed(self, matter: Matter) -> bool:
        """Tell whether what a finding is about is no longer in the frame."""
        about = read_joint_subject(matter.finding.verdict.subject.partition("~")[0])
        return about is not None and self._last.get((about.frame, about.joint), 0) > about.attempt


def last_made(reads: Reads, matters: Iterable[Matter]) -> LastMade:
    """Read what tells them apart, of the frames these findings are on: a pass that names no attempt is of the first."""
    frames = {each.finding.frame for each in matters if each.finding.frame}
    return LastMade(reads.passes_of(frames, ('"attempt"',)) if frames else ())
