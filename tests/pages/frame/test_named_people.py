"""People are shown by their names, told apart where two bear the same one."""

from server.facts.people import Person
from server.pages.frame.named_people import NamedPeople


def _person(number: str, name: str) -> Person:
    return Person(id=number, name=name, roles=("welder",))


def test_a_number_is_shown_as_its_name():
    """One name stands alone; a name two bear has its number beside it; who is not registered stays as written."""
    who = NamedPeople({each.id: each for each in (_person("P1", "Ann Roe"), _person("P2", "Bo Lind"))})
    assert (who("P1"), who("P7"), who(None)) == ("Ann Roe", "P7", "")
    twice = NamedPeople({each.id: each for each in (_person("P1", "Ann Roe"), _person("P2", "Ann Roe"))})
    assert (twice("P1"), twice("P2")) == ("Ann Roe (P1)", "Ann Roe (P2)")
