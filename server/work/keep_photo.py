"""Keeps a picture that was sent: its bytes under their SHA-256, and a line of the record that says they arrived."""

import hashlib
from dataclasses import dataclass

from server.documents.not_a_picture import NotAPicture
from server.documents.picture import Checked, check_picture
from server.facts.delivery import Receipt
from server.facts.moment import show_moment
from server.facts.supplies import Arrived, Photo
from server.record.book_of_lines import Record
from server.record.files import Files
from server.record.lines import HOUSE, Placed
from server.record.reads import Reads
from server.record.written import Written
from server.work.arrived_photo import arrived_name, arrived_photo
from server.work.house_entry import Writing, house_entry
from server.work.refusal import Unreadable
from server.work.understanding import understand


@dataclass(frozen=True, slots=True)
class PhotoSent:
    """A picture as it came: of which frame its sender says it is, who sent it, on which device the shop knows."""

    content: bytes
    frame: str | None = None
    who: str | None = None
    role: str | None = None
    sent_by: str | None = None

    @property
    def sha256(self) -> str:
        """What entries name it by."""
        return hashlib.sha256(self.content).hexdigest()


@dataclass(frozen=True, slots=True)
class PhotoKept:
    """The receipt, and what is known of the picture; sent again it is the first receipt."""

    receipt: Receipt
    arrived: Arrived


def keep_photo(record: Record, files: Files, sent: PhotoSent, now_ms: int) -> PhotoKept:
    """Check a picture, keep it, then tell the record; raises `Unreadable`, and then nothing was kept or recorded."""
    try:
        checked = check_picture(sent.content)
    except NotAPicture as slip:
        raise Unreadable(f"photo: {slip}; nothing was kept") from slip
    files.keep(checked.content)
    return record.write(lambda reads: _arrive(reads, sent, checked, now_ms)).result()


def _arrive(reads: Reads, sent: PhotoSent, checked: Checked, now_ms: int) -> Written[PhotoKept]:
    sha256 = sent.sha256
    known = arrived_photo(reads, sha256)
    if known and (line := reads.line(known.id)):
        before = Placed(line.position, line.id, line.leaf, line.received_ms)
        return Written(answer=lambda _: PhotoKept(_receipt(before, again=True), known))
    writing = Writing(sent.who or HOUSE, sent.role, now_ms, reads.last_position())
    told = {
        "kind": "arrived",
        "frame": sent.frame or _frame_named(reads, sha256),
        "sha256": sha256,
        "kept_sha256": hashlib.sha256(checked.content).hexdigest(),
        "looks_like": checked.looks_like,
        "width_px": checked.width_px,
        "height_px": checked.height_px,
        "sent_by": sent.sent_by,
    }
    sent_in = house_entry(arrived_name(sha256), writing, told)
    entry = Arrived.model_validate_json(sent_in.body)
    lines = (understand(sent_in).line,)
    return Written(answer=lambda placed: PhotoKept(_receipt(placed[0], again=False), entry), lines=lines)


def _frame_named(reads: Reads, sha256: str) -> str | None:
    """A sender that does not say of which frame a picture is may have said so in its entry."""
    entries = (each.entry for each in reads.photos())
    return next((each.frame for each in entries if isinstance(each, Photo) and each.sha256 == sha256), None)


def _receipt(at: Placed, *, again: bool) -> Receipt:
    return Receipt(
        delivery=at.id,
        entry=at.id,
        taken="taken before" if again else "taken",
        position=at.position,
        leaf=at.leaf.hex(),
        received=show_moment(at.received_ms),
        problem=None,
        understood=True,
    )
