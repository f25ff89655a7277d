"""Whether gas can reach every member of a purge, and leave again."""

from __future__ import annotations

from collections.abc import Iterable

from server.physics.errors import SealedPurge, UnreachableMember
from server.physics.purge_network import PurgeNetwork


def check_reach(network: PurgeNetwork) -> None:
    """Refuse a purge with a member that no hole joins to an inlet, or with no vent for the gas of an inlet."""
    pairs = [(hole.member, hole.into) for hole in network.holes if hole.into is not None]
    both_ways = [*pairs, *((into, member) for member, into in pairs)]
    reached = spread((inlet.member for inlet in network.inlets), both_ways)
    shut = [member.name for member in network.members if member.name not in reached]
    if shut:
        expected = "a way through holes from an inlet to every member"
        remedy = "Drill or open its hole, or take it out of this set-up."
        raise UnreachableMember("members", ", ".join(shut), expected, remedy)
    vented = spread((hole.member for hole in network.holes if hole.into is None), both_ways)
    sealed = [inlet.member for inlet in network.inlets if inlet.member not in vented]
    if sealed:
        remedy = "Open a vent before the gas is turned on."
        raise SealedPurge("holes", ", ".join(sealed), "a vent for the gas that flows in there", remedy)


def spread(start: Iterable[str], ways: Iterable[tuple[str, str]]) -> set[str]:
    """All names that can be reached from some, along ways that lead from one name to the next.

    Example:
        >>> sorted(spread(["shell"], [("shell", "stay"), ("stay", "bridge"), ("head", "shell")]))
        ['bridge', 'shell', 'stay']
    """
    onward: dict[str, list[str]] = {}
    for here, there in ways:
        onward.setdefault(here, []).append(there)
    reached: set[str] = set()
    waiting = list(start)
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached.add(name)
            waiting.extend(onward.get(name, ()))
    return reached
