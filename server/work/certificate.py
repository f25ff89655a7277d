"""Gathers what a release certificate says: the frame as known when its release was signed, and nothing later."""

from typing import Any

from server.facts.deciding import Permission, Signature
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.facts.welding import Pass
from server.record.reads import Reads
from server.work.frame_history import FrameStory, frame_history
from server.work.refusal import NotThere


def release_certificate(reads: Reads, frame: str) -> dict[str, Any]:
    """Give the certificate's data, the same every time it is asked for; raises `NotThere` before the release."""
    given = [each for each in frame_history(reads, frame).permissions if each.permits == "release"]
    if not given:
        raise NotThere(f"{frame} has not been released; its certificate can be had once the release is signed")
    release = given[-1]
    story = frame_history(reads, frame, release.known_at)
    registers = reads.registers()
    inspections = [each for each in story.permissions if each.permits == "final inspection"]
    return {
        "frame": frame,
        "shop": registers.shop.model_dump(include={"name", "address", "notice", "zone"}) if registers.shop else {},
        "design": story.design.title if story.design else story.packet.design,
        "size": story.packet.size,
        "permission": release.id,
        "known_at": release.known_at,
        "released_at": show_moment(_signed_ms(release)),
        "released": _signed(release.signatures, registers),
        "inspected": _signed(inspections[-1].signatures, registers) if inspections else [],
        "signed_over": [_signed_over(story, key) for key in release.open_findings],
        "reason": release.reason or "",
        "judged": any(attempt.verdicts for joint in story.joints for attempt in joint.attempts),
        "joints": _joints(story),
        "decisions": _decisions(story),
    }


def _signed_ms(permission: Permission) -> int:
    return max(each.at for each in permission.signatures)


def _signed(signatures: tuple[Signature, ...], registers: Registers) -> list[dict[str, str]]:
    return [
        {
            "name": registers.people[each.person].name if each.person in registers.people else each.person,
            "role": each.role + (" (one person in both roles)" if each.both_roles_one_person else ""),
            "at": show_moment(each.at),
            "meaning": each.meaning,
            "shown_sha256": each.shown_sha256,
        }
        for each in signatures
    ]


def _signed_over(story: FrameStory, key: str) -> str:
    standing = {each.finding.key: each.finding.verdict for each in story.open_matters}
    return f"{standing[key].subject}: {standing[key].message}" if key in standing else key


def _joints(story: FrameStory) -> list[dict[str, Any]]:
    return [
        {
            "joint": each.joint.id,
            "title": each.joint.title,
            "procedure": each.joint.procedure,
            "attempts": len(each.attempts),
            "passes": sum(isinstance(told.entry, Pass) for attempt in each.attempts for told in attempt.told),
            "asked": sum(v.word.value != "not asked" for attempt in each.attempts for v in attempt.verdicts),
            "within": sum(v.word.value == "within" for attempt in each.attempts for v in attempt.verdicts),
            "finished": story.progress.joint(each.joint.id).finished,
        }
        for each in story.joints
    ]


def _decisions(story: FrameStory) -> list[dict[str, Any]]:
    return [
        {
            "id": each.id,
            "choice": each.choice + (f", {each.concession}" if each.concession else ""),
            "about": sorted({key.partition("|")[2] + " on " + key.partition("|")[0] for key in each.findings}),
            "reason": each.reason,
            "roles": ", ".join(signed.role for signed in each.signatures),
        }
        for each in story.decisions
    ]
