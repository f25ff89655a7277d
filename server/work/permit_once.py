"""Signs at a gate once: the same signed again with nothing told of the frame since adds nothing; others are told."""

from server.facts.deciding import Permission
from server.record.reads import Reads
from server.record.written import Written
from server.work.frame_history import FrameStory, frame_history
from server.work.permit import GateShut, PermissionAsked, permit
from server.work.told_once import ToldBefore
from server.work.who_has_it import back_in_house


def permit_once(reads: Reads, asked: PermissionAsked, now_ms: int) -> Written[str]:
    """Give the permission as `permit` does, where it has not been given; else answer the one given, or raise."""
    before = _given(frame_history(reads, asked.frame), asked)
    if before is None or _came_back(reads, asked):
        return permit(reads, asked, now_ms)
    given, to = before
    signed = {(each.person, each.role, each.meaning) for each in given.signatures}
    mine = {(each.person, each.role, each.meaning) for each in asked.signings}
    if (signed, given.reason or "", to) == (mine, asked.override.strip(), _to(reads, asked)):
        return Written(answer=lambda _: ToldBefore(given.id))
    people = reads.registers().people
    names = " and ".join(people[each.person].name for each in given.signatures if each.person in people)
    said = f"{asked.gate}: {names or 'somebody'} signed it while you looked, {given.id}; nothing of yours was"
    raise GateShut(said, *([f"override: what you had written: {asked.override.strip()}"] if asked.override else []))


def _given(story: FrameStory, asked: PermissionAsked) -> tuple[Permission, str] | None:
    """Give the permission that stands last at this gate and whom it sent the frame to, if nothing was told since."""
    given = [each for each in story.permissions if (each.permits, each.joint) == (asked.gate, asked.joint)]
    told = (*story.of_frame, *(each for joint in story.joints for attempt in joint.attempts for each in attempt.told))
    # A hold point tells the look and release of its seam right behind the permission; no other gate tells an entry.
    own = 2 if asked.gate == "hold point" else 1
    if not given or any(each.recorded.position > given[-1].known_at + own for each in told):
        return None
    to = story.shipments[-1].customer if asked.gate == "ship" and story.shipments else ""
    return given[-1], to


def _to(reads: Reads, asked: PermissionAsked) -> str:
    packet = reads.registers().packets.get(asked.frame)
    return asked.customer or (packet.customer if packet else None) or "" if asked.gate == "ship" else ""


def _came_back(reads: Reads, asked: PermissionAsked) -> bool:
    return asked.gate == "ship" and asked.frame in back_in_house(reads, reads.registers(), [asked.frame])
