"""Who has a frame is the last it was sent to, or a later owner the shop was told of."""

from typing import Any

import pytest

from server.facts.orders import Customer, Ownership, Shipment
from server.facts.registers import Registers
from server.work.who_has_it import last_shipment, who_has_it

FIRST = ("2031-04-02T12:00:00Z", "C-1")
AGAIN = ("2031-09-02T12:00:00Z", "C-3")


def registers(sent: list[tuple[str, str]], owned: list[tuple[str, str]]) -> Registers:
    people = {"C-1": "Ines Farol", "C-2": "Tage Holm", "C-3": "Runa Ekberg"}
    shipments: list[dict[str, Any]] = [
        {"id": f"S-{n}", "frame": "F-1", "customer": who, "at": at} for n, (at, who) in enumerate(sent)
    ]
    ownerships: list[dict[str, Any]] = [
        {"id": f"O-{n}", "frame": "F-1", "customer": who, "since": since} for n, (since, who) in enumerate(owned)
    ]
    return Registers(
        customers={name: Customer(id=name, name=called) for name, called in people.items()},
        shipments={each["id"]: Shipment.model_validate(each) for each in shipments},
        ownerships={each["id"]: Ownership.model_validate(each) for each in ownerships},
    )


@pytest.mark.parametrize(
    ("sent", "owned", "who"),
    [
        ([], [], ""),
        ([FIRST], [], "Ines Farol"),
        ([FIRST], [("2031-07-11", "C-2")], "Tage Holm"),
        ([FIRST], [("2031-04-02", "C-2")], "Tage Holm"),
        ([FIRST, AGAIN], [("2031-07-11", "C-2")], "Runa Ekberg"),
        ([AGAIN, FIRST], [], "Runa Ekberg"),
        ([FIRST], [("2031-08-01", "C-2"), ("2031-07-11", "C-3")], "Tage Holm"),
        ([FIRST], [("2031-07-11", "C-9")], "C-9"),
    ],
)
def test_the_later_of_sent_and_told(sent: list[tuple[str, str]], owned: list[tuple[str, str]], who: str):
    """The later counts, whichever was told first; on one day the owner; somebody unknown by their number."""
    assert who_has_it(registers(sent, owned), "F-1") == who


def test_another_frame_tells_nothing():
    """Whoever has one frame says nothing of another."""
    assert who_has_it(registers([FIRST], [("2031-07-11", "C-2")]), "F-2") == ""
    assert last_shipment(registers([FIRST], []), "F-2") is None
