"""How long a qualification held: from its issue, by confirmations or by use of the process, as date ordinals."""

from collections.abc import Collection, Iterable
from datetime import date

from server.facts.people import Qualification
from server.occasions.days import last_day

Spell = tuple[int, int]


def confirmed_spell(qualification: Qualification, confirmed: Iterable[date]) -> tuple[Spell, ...]:
    """Give its one spell; a confirmation after the last valid day renews nothing: a new test piece does."""
    until = last_day(qualification.issued, qualification.months)
    for dated in sorted(confirmed):
        if qualification.issued <= dated <= until:
            until = last_day(dated, qualification.months)
    return ((qualification.issued.toordinal(), until.toordinal()),)


def used_spells(qualification: Qualification, welded: Collection[int], proved: Collection[int]) -> tuple[Spell, ...]:
    """Give every spell: a weld on a valid day carries it on, a good coupon does also when it had lapsed."""
    first = qualification.issued.toordinal()
    spells = [(first, _until(qualification, first))]
    for day in sorted({*welded, *proved}):
        since, until = spells[-1]
        if since <= day <= until:
            spells[-1] = (since, max(until, _until(qualification, day)))
        elif day > until and day in proved:
            spells.append((day, _until(qualification, day)))
    return tuple(spells)


def _until(qualification: Qualification, day: int) -> int:
    return last_day(date.fromordinal(day), qualification.months).toordinal()
