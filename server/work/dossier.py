"""Tells one frame's whole story as a dossier: the data that is typeset, attached and exported, one and the same."""

from collections.abc import Sequence
from typing import Any, Literal, NamedTuple

from server.facts.deciding import Decision, Permission, Signature
from server.facts.moment import show_moment
from server.facts.passage import StageReached
from server.facts.procedure import DEFERRAL
from server.facts.registers import Registers
from server.judgement.cautions import ARC, ARGON, CYLINDER, FINES, HOT
from server.plan.picture import side_view
from server.plan.picture_parts import Picture
from server.record.files import Files
from server.record.reads import Reads
from server.work.dossier_beside import told_beside
from server.work.dossier_joints import Wording, asked_as, told_entry, told_joint, told_matter
from server.work.dossier_papers import gas_under, told_papers
from server.work.dossier_photos import dossier_pictures, told_photo
from server.work.dossier_proof import of_told, told_seal, without_texts
from server.work.dossier_scope import for_customer, of_joint, opened_over
from server.work.dossier_usual import told_usual
from server.work.frame_history import FrameStory, frame_history
from server.work.frame_photos import ShownPhoto, frame_photos
from server.work.legal_hold import standing_hold
from server.work.names_known import names_before
from server.work.removed_attempts import LastMade

ForWhom = Literal["shop", "customer"]
_AMONG_THE_PHOTOS = ("photo", "arrived")
CAUTIONS = (
    (
        "This dossier tells what was recorded. It is no opinion on safety, cause or liability: those are for the "
        "people the law and the shop name for it. Whether a duty to report follows is for counsel in each country "
        "concerned."
    ),
    f"No figure in it is a welding recommendation. {DEFERRAL}",
    ARGON,
    CYLINDER,
    HOT,
    ARC,
    FINES,
)


class Dossier(NamedTuple):
    """What is told of a frame, the pictures it names, by SHA-256, and its side view where its design is known."""

    told: dict[str, Any]
    pictures: dict[str, bytes]
    view: Picture | None


class About(NamedTuple):
    """What a dossier is about: a frame, or one joint of it, for whom it is told, and the record's public key."""

    frame: str
    joint: str = ""
    for_whom: ForWhom = "shop"
    key: str = ""


def dossier(
    reads: Reads, frame: str, wording: Wording, for_whom: ForWhom = "shop", joint: str = "", key: str = ""
) -> dict[str, Any]:
    """Give everything told of a frame or a joint; for a customer without people and without any other frame."""
    about = About(frame, joint, for_whom, key)
    story = _story(reads, about)
    return _for(reads, story, _photos(reads, story, joint), wording, about)


def pictured_dossier(reads: Reads, files: Files, about: About, wording: Wording) -> Dossier:
    """Give the same with the bytes of its pictures, as a document needs them."""
    story = _story(reads, about)
    photos = _photos(reads, story, about.joint)
    told = _for(reads, story, photos, wording, about)
    view = side_view(story.design, story.packet.size) if story.design else None
    return Dossier(told, dossier_pictures(reads, files, photos, story.decisions), view)


def _story(reads: Reads, about: About) -> FrameStory:
    story = frame_history(reads, about.frame)
    return of_joint(story, about.joint) if about.joint else story


def _photos(reads: Reads, story: FrameStory, joint: str) -> list[ShownPhoto]:
    return [each for each in frame_photos(reads, story) if not joint or each.joint == joint]


def _for(
    reads: Reads, story: FrameStory, photos: Sequence[ShownPhoto], wording: Wording, about: About
) -> dict[str, Any]:
    registers = reads.registers(story.known_at)
    told = _told(reads, story, registers, wording) | {"for": about.for_whom, "joint": about.joint}
    told["photos"] = [told_photo(each, wording) for each in photos]
    if about.joint:
        for each, permission in zip(told["permissions"], story.permissions, strict=True):
            each["open_findings"] = opened_over(permission, about.joint)
    if about.joint and about.for_whom == "shop":
        told["usual"] = told_usual(reads, about.frame, about.joint)
    sealed = told_seal(reads, about.frame, about.key)
    if about.for_whom == "customer":
        # The roles and the left-out serials are put into words, never into hashes.
        return for_customer(told, registers, names_before(reads, registers)) | without_texts(sealed)
    return told | (of_told(sealed, told) if about.joint else sealed)


def _told(reads: Reads, story: FrameStory, registers: Registers, wording: Wording) -> dict[str, Any]:
    every = (told for joint in story.joints for attempt in joint.attempts for told in attempt.told)
    made = LastMade(each.recorded for each in every)
    joints = [told_joint(each, wording) for each in story.joints if each.attempts]
    gas = gas_under(reads, story)
    around = told_beside(reads, story, (each["entry"] for each in gas))
    return {
        "format": "strawline dossier 1",
        **_identity(story, registers, wording),
        "told_at": show_moment(reads.last_received_ms()),
        "told_shown": wording.moment(reads.last_received_ms()),
        "known_at": story.known_at,
        "way": [told_entry(each, wording) for each in story.of_frame if each.entry.kind not in _AMONG_THE_PHOTOS],
        "plan": _plan(story),
        "joints": joints,
        "questions": _questions(joints),
        "frame_findings": [told_matter(each, wording) for each in story.frame_matters],
        "open": [each.finding.key for each in story.open_matters if not made.removed(each)],
        "open_on_removed": [each.finding.key for each in story.open_matters if made.removed(each)],
        "decisions": [_decision(each, wording) for each in story.decisions],
        "permissions": [_permission(each, wording) for each in story.permissions],
        "concessions": [each.model_dump(mode="json") for each in story.concessions],
        "nonconformities": [each.model_dump(mode="json") for each in story.nonconformities],
        "shipments": [each.model_dump(mode="json") | {"shown": wording.moment(each.at)} for each in story.shipments],
        "back": _back(story, wording),
        "owners": [
            {"customer": customer.name if customer else owned.customer, "since": owned.since.isoformat()}
            for owned, customer in story.owners
        ],
        **told_papers(reads, story, registers, wording, gas, {each.entry.who for each in around}),
        "beside": [told_entry(each, wording) for each in around],
        "not_understood": [{"id": each.id, "problem": each.problem} for each in story.not_understood],
        "legal_hold": _hold(registers, story.packet.frame, wording),
        "cautions": list(CAUTIONS),
    }


def _back(story: FrameStory, wording: Wording) -> dict[str, str] | None:
    """When the frame came back, where it has not left again."""
    left_ms = max((each.at for each in story.shipments), default=-1)
    stages = ((each, each.entry) for each in story.of_frame if not any(mend.withdraw for mend in each.mended_by))
    came = [each.stamp.at_ms for each, it in stages if isinstance(it, StageReached) and it.stage == "returned"]
    if not came or max(came) < left_ms:
        return None
    return {"at": show_moment(max(came)), "shown": wording.moment(max(came))}


def _questions(joints: Sequence[dict[str, Any]]) -> dict[str, str]:
    """What the book asks under each name that the joints' lists use."""
    lists = (names for joint in joints for attempt in joint["attempts"] for names in attempt["asked"].values())
    return {name: asked_as(name) for name in sorted({name for names in lists for name in names})}


def _hold(registers: Registers, frame: str, wording: Wording) -> dict[str, Any] | None:
    held = standing_hold(registers, frame)
    return {**held.model_dump(mode="json"), "shown": wording.moment(held.at)} if held else None


def _identity(story: FrameStory, registers: Registers, wording: Wording) -> dict[str, Any]:
    shop, design = registers.shop, story.design
    return {
        "shop": {"name": shop.name, "address": shop.address, "notice": shop.notice, "zone": shop.zone} if shop else {},
        "serial": story.packet.frame,
        "design": {"name": story.packet.design, "title": design.title if design else "", "size": story.packet.size},
        "design_sha256": design.sha256 if design else "",
        "packet": story.packet.id,
        "issued": show_moment(story.packet.issued),
        "issued_shown": wording.moment(story.packet.issued),
        "bench": story.packet.bench,
        "before_the_record": story.packet.before_the_record,
    }


def _plan(story: FrameStory) -> list[dict[str, Any]]:
    covers = story.design.covers if story.design else ()
    return [
        {
            "joint": joint.id,
            "title": joint.title,
            "parts": list(joint.parts),
            "procedure": joint.procedure,
            "seam_mm": joint.seam_mm,
            "inside": {"F": "fully", "P": "partly", "N": "not"}[joint.inside],
            "runs": list(joint.runs),
            "hidden_by": [f"{each.quarter} by {each.by}" for each in covers if each.seam == joint.id],
        }
        for joint in (each.joint for each in story.joints)
    ]


def _decision(decision: Decision, wording: Wording) -> dict[str, Any]:
    told = decision.model_dump(mode="json", exclude={"seen"})
    return told | {"signatures": [_signed(each, wording) for each in decision.signatures]}


def _permission(permission: Permission, wording: Wording) -> dict[str, Any]:
    told = permission.model_dump(mode="json")
    return told | {"signatures": [_signed(each, wording) for each in permission.signatures]}


def _signed(signed: Signature, wording: Wording) -> dict[str, Any]:
    return signed.model_dump(mode="json") | {"at": show_moment(signed.at), "shown": wording.moment(signed.at)}
