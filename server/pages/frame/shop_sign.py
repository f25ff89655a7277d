"""The shop's sign on every page: its name, its zone, its notice, its people, as the record knows them now."""

from server.facts.looked_up import looked_up
from server.facts.shop import Shop
from server.pages.frame.named_people import NamedPeople
from server.record.book_of_lines import Record

_UNNAMED = Shop(name="A shop without a name yet", zone="UTC")


class ShopSign:
    """Reads the shop's sheet when asked; the registers are cached by the record, so this costs no scan."""

    def __init__(self, record: Record) -> None:
        self._record = record

    def sheet(self) -> Shop:
        """Give the shop's sheet as it stands."""
        with self._record.reads() as reads:
            return reads.registers().shop or _UNNAMED

    def who(self) -> NamedPeople:
        """Give what names its people."""
        with self._record.reads() as reads:
            registers = reads.registers()
        return looked_up(registers, "people by name", (registers.people,), lambda: NamedPeople(registers.people))

    @property
    def zone(self) -> str:
        """The zone its clock hangs in."""
        return self.sheet().zone
