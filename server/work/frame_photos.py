"""The pictures of one frame in the order they were taken: of what, by whom, whether they came, what the rules say."""

from collections.abc import Iterable
from dataclasses import dataclass

from server.facts.judged import Verdict, Word
from server.facts.subject import read_joint_subject
from server.facts.supplies import Arrived, Photo
from server.facts.welding import Look
from server.record.reads import Reads
from server.work.arrived_photo import arrived_name
from server.work.frame_history import FrameStory, Told
from server.work.house_entry import house_entry_id

_RULES = ("photo-own", "photo-alike")


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    """One picture as one entry names it; `arrived` is none while its bytes are still on the way."""

    told: Told
    sha256: str
    joint: str | None
    attempt: int | None
    side: str | None
    zone: str | None
    moment: str | None
    taken_ms: int
    look: Look | None
    arrived: Arrived | None
    verdicts: tuple[Verdict, ...]

    @property
    def where(self) -> str:
        """Say what it shows: joint, side, zone, moment, as far as that was told."""
        return ", ".join(each for each in (self.joint, self.side, self.zone, self.moment) if each) or "the frame"

    @property
    def against(self) -> tuple[Verdict, ...]:
        """What the rules hold against it."""
        return tuple(each for each in self.verdicts if each.word is Word.OUTSIDE)


def frame_photos(reads: Reads, story: FrameStory) -> tuple[ShownPhoto, ...]:
    """Gather the pictures that stand, whatever of them was withdrawn left out; a fixed number of questions."""
    attempts = [attempt for joint in story.joints for attempt in joint.attempts]
    looks = [each for attempt in attempts for each in attempt.told if isinstance(each.entry, Look) and _stands(each)]
    told = [each for each in story.of_frame if isinstance(each.entry, Photo) and _stands(each)]
    named = {each.entry.sha256 for each in told if isinstance(each.entry, Photo)}
    told += [each for each in looks if _sha256(each) not in {None, *named}]
    arrived = _arrived(reads, {sha256 for each in told if (sha256 := _sha256(each))}, story.known_at)
    verdicts = [each for attempt in attempts for each in attempt.verdicts if each.question in _RULES]
    shown = [_shown(each, sha256, looks, arrived, verdicts) for each in told if (sha256 := _sha256(each))]
    return tuple(sorted(shown, key=lambda each: (each.taken_ms, each.told.stamp.at_ms, each.told.entry.id)))


def _shown(
    told: Told, sha256: str, looks: list[Told], arrived: dict[str, Arrived], verdicts: list[Verdict]
) -> ShownPhoto:
    entry = told.entry
    look = next((each.entry for each in looks if isinstance(each.entry, Look) and each.entry.photo == sha256), None)
    taken = getattr(entry, "taken", None)
    return ShownPhoto(
        told=told,
        sha256=sha256,
        joint=getattr(entry, "joint", None),
        attempt=getattr(entry, "attempt", None),
        side=getattr(entry, "side", None),
        zone=getattr(entry, "zone", None) or (look.zone if look else None),
        moment=getattr(entry, "moment", None) or (look.moment if look else None),
        # A device tells when it took a picture by its own clock, as it tells when it logged it.
        taken_ms=told.stamp.at_ms if taken is None else taken - told.clock_off_ms,
        look=look,
        arrived=arrived.get(sha256),
        verdicts=tuple(each for each in verdicts if isinstance(entry, Photo) and _about(each, entry)),
    )


def _about(verdict: Verdict, photo: Photo) -> bool:
    """Within is said of all pictures of a joint; what is held against a copy rests on the original of another too."""
    subject = read_joint_subject(verdict.subject)
    if subject is None or subject.joint != photo.joint or photo.attempt not in (None, subject.attempt):
        return False
    return verdict.word is Word.WITHIN or photo.id in verdict.rests_on


def _arrived(reads: Reads, names: Iterable[str], known_at: int) -> dict[str, Arrived]:
    found = reads.entries_named([house_entry_id(arrived_name(each)) for each in names])
    known = (each.entry for each in found if each.position <= known_at)
    return {each.sha256: each for each in known if isinstance(each, Arrived)}


def _sha256(told: Told) -> str | None:
    entry = told.entry
    return entry.sha256 if isinstance(entry, Photo) else entry.photo if isinstance(entry, Look) else None


def _stands(told: Told) -> bool:
    return not any(each.withdraw for each in told.mended_by)
