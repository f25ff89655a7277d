"""Items in order under each name they stand under: a filing is never changed, the next one shares what stayed."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from heapq import merge
from operator import itemgetter
from typing import Any, TypeVar

from server.facts.in_parts import in_parts, put_in
from server.facts.layered import layered

Item = TypeVar("Item")
Name = TypeVar("Name", bound=Hashable)
Place = tuple[Any, ...]
Order = Callable[[Item], Place]
"""Where an item stands among others; no two items stand in the same place."""


class NotFiled(LookupError):
    """What was to be taken out did not stand there: this filing cannot be carried on."""


def refiled(
    filed: Mapping[Name, Sequence[Item]],
    gone: Collection[Item],
    more: Collection[Item],
    names: Callable[[Item], Iterable[Name]],
    order: Order[Item],
) -> Mapping[Name, Sequence[Item]]:
    """Give the filing without some items and with further ones; a name under which nothing changes keeps its list."""
    if not gone and not more:
        return filed
    out, into = _by_name(gone, names), _by_name(more, names)
    names_told = dict.fromkeys([*out, *into])
    found = {
        name: in_order_again(filed.get(name, ()), out.get(name, ()), into.get(name, ()), order) for name in names_told
    }
    return layered(filed, found, empty=[name for name, items in found.items() if not items])


def in_order_again(
    items: Sequence[Item], gone: Sequence[Item], more: Sequence[Item], order: Order[Item]
) -> Sequence[Item]:
    """Give the items in order, some taken out and others put in; what stays in place is not looked at."""
    if not items:
        return in_parts(sorted(more, key=order))
    places = sorted(((order(each), each) for each in more), key=itemgetter(0))
    taken = sorted(map(order, gone))
    ends = [*taken[:1], *taken[-1:], *(place for place, _ in (*places[:1], *places[-1:]))]
    low, high = bisect_left(items, min(ends), key=order), bisect_right(items, max(ends), key=order)
    return put_in(items, low, high, _again(items[low:high], taken, places, order))


def _again(
    items: Sequence[Item], taken: list[Place], places: list[tuple[Place, Item]], order: Order[Item]
) -> list[Item]:
    found: list[Item] = []
    low = 0
    for place, each in merge(((place, None) for place in taken), places, key=itemgetter(0)):
        at = bisect_left(items, place, low, key=order)
        found += items[low:at]
        low = at
        if each is not None:
            found.append(each)
        elif at < len(items) and order(items[at]) == place:
            low = at + 1
        else:
            raise NotFiled(place)
    return [*found, *items[low:]]


def _by_name(items: Iterable[Item], names: Callable[[Item], Iterable[Name]]) -> dict[Name, list[Item]]:
    found: dict[Name, list[Item]] = defaultdict(list)
    for each in items:
        for name in names(each):
            found[name].append(each)
    return found
