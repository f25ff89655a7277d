"""Pictures of all joints: which is the same as, or looks like, an earlier one of another joint."""

from collections.abc import Iterable, Mapping, Sequence
from functools import cache, partial
from itertools import chain, pairwise
from typing import NamedTuple

from server.facts.occasion_joint import PictureFact
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.filed import refiled
from server.occasions.gas import Changed
from server.occasions.timed import Timed, in_order

_BITS = 64
_Band = tuple[int, int]
"""Where a stretch of a look begins, and what stands in it."""


class _Picture(NamedTuple):
    at_ms: int
    entry: str
    place: str
    sha256: str
    look: int | None


class Pictures:
    """All pictures known of any joint, found by their bytes and by their look."""

    def __init__(self, accepted: Accepted, days: Days) -> None:
        self._accepted = accepted
        self._days = days
        self._arrived: Mapping[str, Sequence[Timed]] = {}
        self._photos: Mapping[str, Sequence[Timed]] = {}
        self._bands: dict[int, Mapping[_Band, Sequence[_Picture]]] = {}

    def with_changes(self, accepted: Accepted, photos: Changed[Timed], arrived: Changed[Timed]) -> "Pictures":
        """Give the pictures with some gone and others come; one that arrived may look other than its tablet said."""
        found = Pictures(accepted, self._days)
        found._arrived = refiled(self._arrived, *arrived, _bytes_of, in_order)
        gone_photos, more_photos = (list(filter(_of_a_joint, each)) for each in photos)
        found._photos = refiled(self._photos, gone_photos, more_photos, _bytes_of, in_order)
        touched = dict.fromkeys(each.entry.sha256 for changed in (photos, arrived) for each in chain(*changed))
        gone, more = self._pictures_of(touched), found._pictures_of(touched)
        found._bands = {
            most: refiled(bands, gone, more, partial(_bands_of, most=most), _in_order)
            for most, bands in self._bands.copy().items()
        }
        return found

    def _pictures_of(self, every: Iterable[str]) -> list[_Picture]:
        return [self._picture(photo) for sha256 in every for photo in self._photos.get(sha256, ())]

    def fact(self, photo: Timed) -> PictureFact:
        """Tell what is known against a picture being this joint's own."""
        own = self._picture(photo)
        alike = self._photos.get(own.sha256, ())
        first = self._picture(alike[0]) if alike else own
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
            for other in bands.get(band, ())
            if other.look is not None and (bits := (look ^ other.look).bit_count()) <= most
        ]
        return min((pair for pair in near if pair[0] < own and pair[0].place != own.place), default=None)

    def _banded(self, most: int) -> Mapping[_Band, Sequence[_Picture]]:
        if most not in self._bands:
            every = self._pictures_of(self._photos)
            self._bands[most] = refiled({}, (), every, partial(_bands_of, most=most), _in_order)
        return self._bands[most]

    def _picture(self, photo: Timed) -> _Picture:
        entry = photo.entry
        arrived = self._arrived.get(entry.sha256)
        looks_like = arrived[-1].entry.looks_like if arrived else entry.looks_like
        look = int(looks_like, 16) if looks_like is not None else None
        return _Picture(photo.at.at_ms, entry.id, f"{entry.frame}/{entry.joint}", entry.sha256, look)


def _bands(look: int, count: int) -> list[_Band]:
    return [(low, (look >> low) & mask) for low, mask in _masks(count)]


def _bands_of(picture: _Picture, most: int) -> list[_Band]:
    return _bands(picture.look, most + 1) if picture.look is not None else []


@cache
def _masks(count: int) -> tuple[tuple[int, int], ...]:
    edges = [_BITS * number // count for number in range(count + 1)]
    return tuple((low, (1 << (high - low)) - 1) for low, high in pairwise(edges))


def _bytes_of(told: Timed) -> tuple[str]:
    return (told.entry.sha256,)


def _of_a_joint(photo: Timed) -> bool:
    return bool(photo.entry.frame and photo.entry.joint)


def _in_order(picture: _Picture) -> tuple[int, str]:
    return picture.at_ms, picture.entry
