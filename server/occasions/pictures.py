"""Pictures of all joints: which is the same as, or looks like, an earlier one of another joint."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from server.facts.occasion_joint import PictureFact
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.timed import Timed

_BITS = 64


class _Picture(NamedTuple):
    at_ms: int
    entry: str
    place: str
    sha256: str
    look: int | None


_Bands: TypeAlias = Mapping[tuple[int, int], Sequence[tuple[int, _Picture]]]


class Pictures:
    """All pictures known of any joint, found by their bytes and by their look."""

    def __init__(self, photos: Iterable[Timed], arrived: Iterable[Timed], accepted: Accepted, days: Days) -> None:
        """`arrived` are the pictures that reached the record; their look is what the record computed of it."""
        self._looks = {each.entry.sha256: each.entry.looks_like for each in arrived}
        self._pictures = [_picture(each, self._looks) for each in photos if each.entry.frame and each.entry.joint]
        self._accepted = accepted
        self._days = days
        self._first: dict[str, _Picture] = {}
        for each in self._pictures:
            self._first.setdefault(each.sha256, each)
        self._bands: dict[int, _Bands] = {}

    def fact(self, photo: Timed) -> PictureFact:
        """Tell what is known against a picture being this joint's own."""
        own = _picture(photo, self._looks)
        first = self._first.get(own.sha256, own)
        if first.place != own.place and first.at_ms <= own.at_ms:
            return PictureFact(own.entry, own.sha256, same_as=first.place, other_entry=first.entry)
        found = self._like(own)
        if found is None:
            return PictureFact(own.entry, own.sha256)
        like, bits = found
        return PictureFact(own.entry, own.sha256, like=like.place, bits=bits, other_entry=like.entry)

    def _like(self, own: _Picture) -> tuple[_Picture, int] | None:
        """The earliest picture of another joint that differs from this one in no more bits than the shop allows."""
        limit = self._accepted.at(self._days.day_of(own.at_ms)).get("alike_bits")
        if limit is None or own.look is None:
            return None
        look, most = own.look, int(limit.value)
        bands = self._banded(most)
        # Two looks that differ in at most n bits agree wholly in one of n + 1 bands.
        near = [
            (other, bits)
            for band in _bands(look, most + 1)
            for other_look, other in bands.get(band, ())
            if (bits := (look ^ other_look).bit_count()) <= most
        ]
        return min((pair for pair in near if pair[0] < own and pair[0].place != own.place), default=None)

    def _banded(self, most: int) -> _Bands:
        if most not in self._bands:
            found: dict[tuple[int, int], list[tuple[int, _Picture]]] = defaultdict(list)
            for each in self._pictures:
                if each.look is not None:
                    for band in _bands(each.look, most + 1):
                        found[band].append((each.look, each))
            self._bands[most] = found
        return self._bands[most]


def _bands(look: int, count: int) -> list[tuple[int, int]]:
    return [(low, (look >> low) & mask) for low, mask in _masks(count)]


@cache
def _masks(count: int) -> tuple[tuple[int, int], ...]:
    edges = [_BITS * number // count for number in range(count + 1)]
    return tuple((low, (1 << (high - low)) - 1) for low, high in pairwise(edges))


def _picture(photo: Timed, looks: Mapping[str, str]) -> _Picture:
    entry = photo.entry
    looks_like = looks.get(entry.sha256, entry.looks_like)
    look = int(looks_like, 16) if looks_like is not None else None
    return _Picture(photo.at.at_ms, entry.id, f"{entry.frame}/{entry.joint}", entry.sha256, look)
