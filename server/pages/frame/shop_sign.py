"""The shop's sign on every page: its name, its zone, its notice, its people, as the record knows them now."""

from collections.abc import Mapping

from server.facts.people import Person
from server.facts.shop import Shop
from server.pages.frame.named_people import NamedPeople
from server.record.book_of_lines import Record

_UNNAMED = Shop(name="A shop without a name yet", zone="UTC")


class ShopSign:
    """Reads the shop's sheet when asked; the registers are cached by the record, so this costs no scan."""

    def __init__(self, record: Record) -> None:
        self._record = record
        self._people: Mapping[str, Person] = {}
        self._who = NamedPeople(self._people)

    def sheet(self) -> Shop:
        """Give the shop's sheet as it stands."""
        with self._record.reads() as reads:
            return reads.registers().shop or _UNNAMED

    def who(self) -> NamedPeople:
        """Give what names its people."""
        with self._record.reads() as reads:
            people = reads.registers().people
        if self._people is not people:
            self._people, self._who = people, NamedPeople(people)
        return self._who

    @property
    def zone(self) -> str:
        """The zone its clock hangs in."""
        return self.sheet().zone
