"""Items in order under each name they stand under: a filing is never changed, the next one shares what stayed."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Collection, Hashable, Iterable, Mapping, Sequence
from heapq import merge
from operator import itemgetter
from typing import Any, TypeVar

Item = TypeVar("Item")
Name = TypeVar("Name", bound=Hashable)
Order = Callable[[Item], tuple[Any, ...]]
"""Where an item stands among others; no two items stand in the same place."""


class NotFiled(LookupError):
    """What was to be taken out did not stand there: this filing cannot be carried on."""


def refiled(
    filed: Mapping[Name, list[Item]],
    gone: Collection[Item],
    more: Collection[Item],
    names: Callable[[Item], Iterable[Name]],
    order: Order[Item],
) -> Mapping[Name, list[Item]]:
    """Give the filing without some items and with further ones; a name under which nothing changes keeps its list."""
    if not gone and not more:
        return filed
    out, into = _by_name(gone, names), _by_name(more, names)
    found = dict(filed)
    for name in dict.fromkeys([*out, *into]):
        items = in_order_again(found.get(name, []), out.get(name, ()), into.get(name, ()), order)
        if items:
            found[name] = items
        else:
            found.pop(name, None)
    return found


def in_order_again(
    items: Sequence[Item], gone: Sequence[Item], more: Sequence[Item], order: Order[Item]
) -> list[Item]:
    """Give the items in order, some taken out and others put in; what stays in place is not looked at."""
    if not items:
        return sorted(more, key=order)
    places = sorted(((order(each), each) for each in more), key=itemgetter(0))
    taken = sorted(map(order, gone))
    ends = [*taken[:1], *taken[-1:], *(place for place, _ in (*places[:1], *places[-1:]))]
    low, high = bisect_left(items, min(ends), key=order), bisect_right(items, max(ends), key=order)
    found = list(items[:low])
    for place, each in merge(((place, None) for place in taken), places, key=itemgetter(0)):
        at = bisect_left(items, place, low, high, key=order)
        found += items[low:at]
        low = at
        if each is not None:
            found.append(each)
        elif at < high and order(items[at]) == place:
            low = at + 1
        else:
            raise NotFiled(place)
    return found + list(items[low:])


def _by_name(items: Iterable[Item], names: Callable[[Item], Iterable[Name]]) -> dict[Name, list[Item]]:
    found: dict[Name, list[Item]] = defaultdict(list)
    for each in items:
        for name in names(each):
            found[name].append(each)
    return found
