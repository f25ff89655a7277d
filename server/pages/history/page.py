"""What the history screens show: the list of serials, and one frame's whole story."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from server.facts.claim import Claim
from server.facts.deciding import Permission
from server.facts.judged import Word
from server.facts.legal_hold import LegalHold
from server.facts.log import AnyEntry
from server.facts.orders import Customer, Packet, Shipment
from server.facts.passage import Correction
from server.facts.progress import JointProgress
from server.judgement.matters import Matter
from server.pages.frame.entry_words import entry_values, entry_words
from server.pages.frame.paged import Part
from server.plan.picture_parts import Picture
from server.work.frame_certificates import RestsOn
from server.work.frame_history import FrameStory, JointStory, Told
from server.work.frame_photos import ShownPhoto
from server.work.removed_attempts import LastMade
from server.work.upkeep_sheet import UpkeepLine

_ON_THE_WAY = ("stage", "geometry", "problem")


@dataclass(frozen=True, slots=True)
class SerialLine:
    """One serial on the list: its packet, how far it has come, how much is open on it."""

    packet: Packet
    stage: str
    open_stop: int
    open_decide: int
    removed: int
    who_has_it: str


@dataclass(frozen=True, slots=True)
class SerialList:
    """A part of the serials that fit what was asked for; for the owner also how the service itself is."""

    asked: str
    lines: Part[SerialLine]
    upkeep: UpkeepLine | None = None


@dataclass(frozen=True, slots=True)
class CertificatesPage:
    """Every certificate one frame rests on."""

    frame: str
    found: tuple[RestsOn, ...]
    hold: LegalHold | None = None

    @property
    def without_number(self) -> int:
        """How many name no certificate at all."""
        return sum(each.number is None for each in self.found)


class Signer(NamedTuple):
    """Whose hand a step is from, and in which role they signed it."""

    person: str
    role: str = ""


@dataclass(frozen=True, slots=True)
class WayStep:
    """One step of a frame's way: when, what, who, what was noted; a signed one stands out, a mended one says so."""

    at_ms: int
    words: str
    by: tuple[Signer, ...]
    signed: bool = False
    note: str = ""
    mended_by: tuple[Correction, ...] = ()


class JointInShort(NamedTuple):
    """One joint on one line."""

    id: str
    title: str
    state: str
    attempts: int
    passes: int
    entries: int
    asked: int
    within: int
    findings: int


@dataclass(frozen=True, slots=True)
class HistoryPage:
    """One frame's story with its picture, the joints' states and the checkpoint it is sealed under."""

    story: FrameStory
    picture: Picture | None
    state_of: dict[str, Any]
    way: tuple[WayStep, ...]
    sealed: str
    sees_customers: bool
    photos: tuple[ShownPhoto, ...] = ()
    claims: tuple[Claim, ...] = ()
    hold: LegalHold | None = None
    back_ms: int | None = None

    @property
    def open_in_it(self) -> list[Matter]:
        """What is open on seams that are still in the frame, and on the frame itself."""
        made = self._made
        return [each for each in self.story.open_matters if not made.removed(each)]

    @property
    def open_on_removed(self) -> list[Matter]:
        """What is open on seams that were cut out and made anew."""
        made = self._made
        return [each for each in self.story.open_matters if made.removed(each)]

    @property
    def _made(self) -> LastMade:
        told = (told for joint in self.story.joints for attempt in joint.attempts for told in attempt.told)
        return LastMade(each.recorded for each in told)

    @property
    def in_short(self) -> list[JointInShort]:
        """Every joint on one line: how it stands, what was logged, what was asked and how much of it was good."""
        return [joint_in_short(each, self.state_of[each.joint.id]) for each in self.story.joints]

    @property
    def beside(self) -> list[Told]:
        """What was logged of the frame and stands neither on its way nor at a joint nor among its pictures."""
        at_a_joint = {told.entry.id for joint in self.story.joints for told in joint.apart}
        elsewhere = (*_ON_THE_WAY, "photo", "arrived")
        return [
            each
            for each in self.story.of_frame
            if each.entry.kind not in elsewhere and each.entry.id not in at_a_joint
        ]

    def photos_of(self, joint: str | None) -> list[ShownPhoto]:
        """Give the pictures of one joint, or those of no joint in particular."""
        return [each for each in self.photos if each.joint == joint]


def joint_in_short(joint: JointStory, state: str) -> JointInShort:
    """Count what was logged and asked about a joint over all its attempts."""
    told = [told.entry for attempt in joint.attempts for told in attempt.told]
    asked = [each for attempt in joint.attempts for each in attempt.verdicts if each.word is not Word.NOT_ASKED]
    return JointInShort(
        id=joint.joint.id,
        title=joint.joint.title,
        state=state,
        attempts=len(joint.attempts),
        passes=sum(each.kind == "pass" for each in told),
        entries=len(told),
        asked=len(asked),
        within=sum(each.word is Word.WITHIN for each in asked),
        findings=sum(len(attempt.matters) for attempt in joint.attempts),
    )


def way_of(story: FrameStory, customers: Mapping[str, Customer] | None) -> tuple[WayStep, ...]:
    """Put stages, geometry, problems, permissions and shipments into one order of time; without customers nobody who
    was sent it is named."""
    steps = [_told_step(each) for each in story.of_frame if each.entry.kind in _ON_THE_WAY]
    steps += [_permitted(each) for each in story.permissions]
    steps += [_shipped(each, customers) for each in story.shipments]
    return tuple(sorted(steps, key=lambda step: step.at_ms))


def _told_step(told: Told) -> WayStep:
    entry = told.entry
    return WayStep(
        told.stamp.at_ms, _with_values(entry), (Signer(entry.who),), note=entry.note or "", mended_by=told.mended_by
    )


def _with_values(entry: AnyEntry) -> str:
    return " · ".join((entry_words(entry), *entry_values(entry)))


def _permitted(permission: Permission) -> WayStep:
    parts = [permission.permits, permission.joint or ""]
    parts.append(f"over {len(permission.open_findings)} open" if permission.open_findings else "")
    words = " ".join(part for part in parts if part) + (f": {permission.reason}" if permission.reason else "")
    by = tuple(Signer(each.person, each.role) for each in permission.signatures)
    return WayStep(permission.signatures[0].at, words, by, signed=True)


def _shipped(shipment: Shipment, customers: Mapping[str, Customer] | None) -> WayStep:
    named = customers.get(shipment.customer) if customers else None
    who = f"{named.name} ({shipment.customer})" if named else shipment.customer
    to = f" to {who}" if customers is not None else ""
    by = (Signer(shipment.packed_by),) if shipment.packed_by else ()
    return WayStep(shipment.at, f"shipped, {shipment.id}{to}", by, signed=True)


def state_words(joint: JointStory, progress: JointProgress, *, before_the_record: bool = False) -> str:
    """Say how a joint stands, in the words shown beside its mark; what nobody logged may have been welded before."""
    made = LastMade(told.recorded for attempt in joint.attempts for told in attempt.told)
    standing = [each for attempt in joint.attempts for each in attempt.matters if each.keeps_the_frame]
    if not all(made.removed(each) for each in standing):
        return "open question"
    if progress.released:
        return "released"
    if progress.finished:
        return "finished"
    if progress.welded:
        return "begun"
    untouched = "before the record" if before_the_record else "not begun"
    return "tacked" if progress.tacked else untouched


def states(story: FrameStory) -> dict[str, Any]:
    """Give each joint's state in words, and under `joint:quarters` the quarters that are closed."""
    found: dict[str, Any] = {}
    for joint in story.joints:
        progress = story.progress.joint(joint.joint.id)
        found[joint.joint.id] = state_words(joint, progress, before_the_record=story.packet.before_the_record)
        found[f"{joint.joint.id}:quarters"] = _closed(progress)
    return found


def _closed(progress: JointProgress) -> tuple[str, ...]:
    return tuple(dict.fromkeys(quarter for run in progress.runs.values() for quarter in run))
