"""Tells the pictures of a frame for its dossier: each by its SHA-256, with its caption and what is held against it."""

from collections.abc import Iterable, Sequence
from typing import Any

from server.facts.deciding import Decision
from server.facts.moment import show_moment
from server.record.files import FileDamaged, Files
from server.record.reads import Reads
from server.work.dossier_joints import Wording
from server.work.evidence_files import evidence_bytes, kind_of
from server.work.frame_photos import ShownPhoto


def told_photo(photo: ShownPhoto, wording: Wording) -> dict[str, Any]:
    """Tell one picture; `arrived` is none where its bytes had not come by then."""
    arrived = photo.arrived
    return {
        "entry": photo.told.entry.id,
        "sha256": photo.sha256,
        "kept_sha256": arrived.kept_sha256 if arrived else None,
        "arrived": show_moment(arrived.happened) if arrived else None,
        "device": photo.told.entry.device,
        "joint": photo.joint,
        "where": photo.where,
        "taken": show_moment(photo.taken_ms),
        "shown": wording.moment(photo.taken_ms),
        "who": photo.told.entry.who,
        "note": photo.told.entry.note,
        "grade": photo.look.grade if photo.look else None,
        "against": [wording.sentence(each.message) for each in photo.against],
    }


def dossier_pictures(
    reads: Reads, files: Files, photos: Sequence[ShownPhoto], decisions: Iterable[Decision]
) -> dict[str, bytes]:
    """Give the bytes of the pictures that a dossier prints, by the SHA-256 its data names; what is not here is left."""
    named = [each.sha256 for each in photos if each.arrived]
    named += [sha256 for decision in decisions for sha256 in decision.attachments]
    found: dict[str, bytes] = {}
    for sha256 in dict.fromkeys(named):
        content = _whole(reads, files, sha256)
        if content is not None and kind_of(content) == "picture":
            found[sha256] = content
    return found


def _whole(reads: Reads, files: Files, sha256: str) -> bytes | None:
    try:
        return evidence_bytes(reads, files, sha256)
    except FileDamaged:
        # The record names it all the same; the check of backups is where the damage is told.
        return None
