"""What the page of one picture shows: the picture, what is known of it, and its neighbours in time."""

from collections.abc import Sequence
from dataclasses import dataclass

from server.work.frame_photos import ShownPhoto


@dataclass(frozen=True, slots=True)
class PhotoPage:
    """One picture of a frame, which of how many, and the ones before and after it."""

    serial: str
    photo: ShownPhoto
    number: int
    of: int
    before: ShownPhoto | None
    after: ShownPhoto | None


def photo_page(serial: str, photos: Sequence[ShownPhoto], entry: str) -> PhotoPage | None:
    """Lay out the picture that an entry names; none when no entry of this id names one."""
    at = next((place for place, each in enumerate(photos) if each.told.entry.id == entry), None)
    if at is None:
        return None
    before = photos[at - 1] if at else None
    after = photos[at + 1] if at + 1 < len(photos) else None
    return PhotoPage(serial, photos[at], at + 1, len(photos), before, after)
