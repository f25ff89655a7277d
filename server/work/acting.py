"""Who acts in whose role at a moment: a person's own roles, and those of somebody absent they stand in for."""

from collections.abc import Iterator

from server.facts.deciding import StandIn
from server.facts.people import Person
from server.facts.registers import Registers


def standing_in(registers: Registers, at_ms: int) -> Iterator[StandIn]:
    """Give the ones that hold at a moment; one that was ended, or whose absent person left, does not."""
    told = registers.stand_ins.values()
    ended = {each.ends for each in told if each.ends and each.since <= at_ms}
    for each in told:
        absent = registers.people.get(each.absent)
        begun = each.ends is None and each.since <= at_ms < each.until
        if begun and each.id not in ended and absent and not absent.left:
            yield each


def acting(registers: Registers, person: Person, at_ms: int) -> Person:
    """Give a person with the roles they hold at a moment, their own and those they stand in for."""
    more = [each.role for each in standing_in(registers, at_ms) if each.person == person.id]
    added = tuple(role for role in dict.fromkeys(more) if role not in person.roles)
    return person.model_copy(update={"roles": (*person.roles, *added)}) if added else person
