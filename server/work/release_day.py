"""Tells what was open, waived or late on the day a frame was released, as known then, and what came to light since."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from server.facts.deciding import Concession, Decision, Permission
from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word
from server.facts.registers import Registers
from server.judgement.book import THEN
from server.judgement.judge import judge_all
from server.judgement.matters import Matter, matters
from server.record.reads import Reads
from server.work.frame_history import FrameStory, Told, frame_history
from server.work.known_shop import shop_at
from server.work.refusal import NotThere
from server.work.removed_attempts import LastMade

_WAIVES = frozenset({"use as is", "deviation permit", "accept"})
_READ = frozenset({Word.OUTSIDE, Word.UNKNOWN})


class Late(NamedTuple):
    """An entry that was not in the record when it happened: marked late, or received after the release."""

    told: Told
    after_release: bool


class ThenAndNow(NamedTuple):
    """A question asked of the same thing on the day of release and now, with another answer and what that rests on."""

    then: Verdict
    now: Verdict


class ReleaseDay(NamedTuple):
    """A release with what it was signed over; `since` is what was found afterwards, decided meanwhile or not.

    `otherwise` are the questions that are answered otherwise now; what was asked for the first time since is not there.
    """

    frame: str
    release: Permission
    inspection: Permission | None
    open_then: tuple[Matter, ...]
    removed_then: tuple[Matter, ...]
    waived: tuple[tuple[Decision, Concession | None], ...]
    late: tuple[Late, ...]
    since: tuple[Matter, ...]
    otherwise: tuple[ThenAndNow, ...]

    @property
    def signed_over(self) -> tuple[str, ...]:
        """The findings the signer named as overridden."""
        return self.release.open_findings


def release_day(reads: Reads, frame: str) -> ReleaseDay:
    """Judge the frame as it was known at its last release; raises `NotThere` before one is signed."""
    story = frame_history(reads, frame)
    given = [each for each in story.permissions if each.permits == "release"]
    if not given:
        thin = story.packet.before_the_record
        why = "was built before the record began: no release of it stands here" if thin else "has not been released"
        raise NotThere(f"{frame} {why}, so nothing was signed over; its gate says what it waits for")
    release = given[-1]
    registers = reads.registers(release.known_at)
    judged_then = _judged_at(reads, registers, frame, release.known_at)
    found = (Finding(each, frame, release.known_at, THEN.name) for each in judged_then if each.word in _READ)
    known = matters(found, registers.decisions.values())
    then = [each for each in known if each.keeps_the_frame]
    made = LastMade(reads.frame_entries(frame, release.known_at))
    known_then = {each.finding.key for each in known}
    inspections = [each for each in story.permissions if each.permits == "final inspection"]
    return ReleaseDay(
        frame=frame,
        release=release,
        inspection=inspections[-1] if inspections else None,
        open_then=tuple(each for each in then if not made.removed(each)),
        removed_then=tuple(each for each in then if made.removed(each)),
        waived=tuple(_waived(reads, story, release)),
        late=tuple(_late(story, release.known_at)),
        since=tuple(each for each in story.matters if _is_read(each) and each.finding.key not in known_then),
        otherwise=tuple(_otherwise(reads, frame, judged_then)),
    )


def _is_read(matter: Matter) -> bool:
    verdict = matter.finding.verdict
    return verdict.word in _READ and verdict.severity is not Severity.NOTE


def _judged_at(reads: Reads, registers: Registers, frame: str, position: int) -> list[Verdict]:
    """Judge anew from what was known then: a verdict rests on nothing else, whenever it is asked for."""
    packet = registers.packets.get(frame)
    if packet is None:
        return []
    occasions = shop_at(reads, position).frame(packet, reads.frame_entries(frame, position))
    return list(judge_all(occasions, THEN))


def _otherwise(reads: Reads, frame: str, judged_then: Iterable[Verdict]) -> Iterable[ThenAndNow]:
    standing = reads.verdicts_of_frame(frame).values()
    now = {(each.subject, each.question): each for verdicts in standing for each in verdicts}
    pairs = [(then, now[about]) for then in judged_then if (about := (then.subject, then.question)) in now]
    changed = [(then, after) for then, after in pairs if after.word is not then.word]
    if not changed:
        return
    # What is within is kept as its word alone; what it rests on is judged again.
    again = _judged_at(reads, reads.registers(), frame, reads.last_position())
    whole = {(each.subject, each.question, each.word): each for each in again}
    for then, after in changed:
        yield ThenAndNow(then, whole.get((after.subject, after.question, after.word), after))


def _waived(reads: Reads, story: FrameStory, release: Permission) -> Iterable[tuple[Decision, Concession | None]]:
    registers = reads.registers()
    for each in story.decisions:
        before = registers.positions.get(f"decision:{each.id}", 0) <= release.known_at
        if each.choice in _WAIVES and before:
            yield each, registers.concessions.get(each.concession or "")


def _late(story: FrameStory, position: int) -> Iterable[Late]:
    for told in _entries(story):
        after = told.recorded.position > position and _happened_before(told, story, position)
        if told.entry.late_reason or after:
            yield Late(told, after)


def _happened_before(told: Told, story: FrameStory, position: int) -> bool:
    signed = [each for each in story.permissions if each.permits == "release" and each.known_at == position]
    return bool(signed) and told.stamp.at_ms < max(signature.at for signature in signed[0].signatures)


def _entries(story: FrameStory) -> Sequence[Told]:
    of_joints = [told for joint in story.joints for attempt in joint.attempts for told in attempt.told]
    return sorted((*of_joints, *story.of_frame), key=lambda each: each.stamp.at_ms)
