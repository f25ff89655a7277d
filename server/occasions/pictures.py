"""Pictures of all joints: which is the same as, or looks like, an earlier one of another joint."""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from server.facts.occasion_joint import PictureFact
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.timed import Timed

_BITS = 64


class Pictures:
    """All pictures known of any joint, found by their bytes and by their look."""

    def __init__(self, photos: Iterable[Timed], accepted: Accepted, days: Days) -> None:
        self._photos = [each for each in photos if each.entry.frame and each.entry.joint]
        self._accepted = accepted
        self._days = days
        self._same: dict[str, Timed] = {}
        for each in self._photos:
            self._same.setdefault(each.entry.sha256, each)
        self._bands: dict[tuple[int, int, int], list[Timed]] | None = None
        self._most_bits = 0

    def fact(self, photo: Timed) -> PictureFact:
        """Tell what is known against a picture being this joint's own."""
        entry = photo.entry
        first = self._same.get(entry.sha256, photo)
        if _place(first) != _place(photo) and first.at.at_ms <= photo.at.at_ms:
            return PictureFact(entry.id, entry.sha256, same_as=_place(first), other_entry=first.entry.id)
        like = self._like(photo)
        if like is None:
            return PictureFact(entry.id, entry.sha256)
        bits = _apart(entry.looks_like, like.entry.looks_like)
        return PictureFact(entry.id, entry.sha256, like=_place(like), bits=bits, other_entry=like.entry.id)

    def _like(self, photo: Timed) -> Timed | None:
        limit = self._accepted.at(self._days.day_of(photo.at.at_ms)).get("alike_bits")
        look = photo.entry.looks_like
        if limit is None or look is None:
            return None
        for other in self._near(look, int(limit.value)):
            earlier = (other.at.at_ms, other.entry.id) < (photo.at.at_ms, photo.entry.id)
            if earlier and _place(other) != _place(photo) and _apart(look, other.entry.looks_like) <= limit.value:
                return other
        return None

    def _near(self, look: str, most_bits: int) -> list[Timed]:
        """Two looks that differ in at most n bits agree wholly in one of n + 1 bands."""
        if self._bands is None or most_bits > self._most_bits:
            self._most_bits = most_bits
            self._bands = defaultdict(list)
            for each in self._photos:
                if each.entry.looks_like is not None:
                    for band in _bands(each.entry.looks_like, most_bits + 1):
                        self._bands[band].append(each)
        found = {
            each.entry.id: each for band in _bands(look, self._most_bits + 1) for each in self._bands.get(band, ())
        }
        return sorted(found.values(), key=_when)


def _bands(look: str, count: int) -> list[tuple[int, int, int]]:
    value = int(look, 16)
    edges = [_BITS * number // count for number in range(count + 1)]
    return [
        (count, number, (value >> low) & ((1 << (high - low)) - 1))
        for number, (low, high) in enumerate(pairwise(edges))
    ]


def _apart(look: str, other: str) -> int:
    return (int(look, 16) ^ int(other, 16)).bit_count()


def _place(photo: Timed) -> str:
    return f"{photo.entry.frame}/{photo.entry.joint}"


def _when(photo: Timed) -> tuple[int, str]:
    return photo.at.at_ms, photo.entry.id
