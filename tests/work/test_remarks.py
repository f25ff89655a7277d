"""What a receipt remarks on, and that it says nothing where there is nothing to say."""

from typing import Any

import pytest

from server.facts.design import Design
from server.facts.log import LOG_ENTRY
from server.facts.orders import Packet
from server.facts.people import Person
from server.facts.registers import Registers
from server.work.remarks import CLOCK_WORTH_SAYING_MS, named_in, remarks_on
from server.work.sent_delivery import SentDelivery
from tests.record.sample_lines import DEVICE, RECEIVED, entry_told

JOINT: dict[str, Any] = {"id": "J1", "title": "seam", "parts": ("A", "B"), "procedure": "p", "seam_mm": 100}
DESIGN = Design.model_validate(
    {"name": "D", "title": "D", "kind": "frame", "sizes": ("54",), "nodes": {}, "members": ()}
    | {"joints": (JOINT | {"inside": "N", "at": "n", "stage": "s"},)}
)
PACKET = Packet.model_validate(
    {"id": "K", "frame": "F-1", "design": "D", "size": "54", "issued": "2025-03-01T08:00:00.000Z"}
)
KNOWN = Registers(
    people={"P1": Person(id="P1", name="Ada Vane", roles=("welder",))},
    packets={"F-1": PACKET},
    designs={"D": DESIGN},
)


def remarks(
    registers: Registers = KNOWN, sent_ms: int | None = RECEIVED, kind: str = "pass", **told: Any
) -> str | None:
    entry = LOG_ENTRY.validate_python(entry_told(1, kind, **told))
    return remarks_on(named_in(entry), SentDelivery("D-1", DEVICE, sent_ms, RECEIVED, b""), registers)


def test_nothing_strange_is_nothing_said():
    """A known person at a known joint of a known frame, sent by a right clock or on paper: no remark."""
    assert remarks() is None
    assert remarks(sent_ms=None) is None
    assert remarks(kind="bead", line="T-1", result="good") is None


@pytest.mark.parametrize(
    ("off_ms", "said"),
    [
        (CLOCK_WORTH_SAYING_MS, None),
        (CLOCK_WORTH_SAYING_MS + 1, "0 h 2 min ahead"),
        (3_600_000, "1 h 0 min ahead"),
        (-CLOCK_WORTH_SAYING_MS, None),
        (-5_430_000, "1 h 30 min behind"),
    ],
)
def test_a_wrong_clock_is_said_with_how_far(off_ms: int, said: str | None):
    """From two minutes on it is said how far the device's clock is off, and to which side."""
    found = remarks(sent_ms=RECEIVED + off_ms)
    assert found is None if said is None else said in str(found)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"who": "P9"}, "who is 'P9', whom the record does not know"),
        ({"frame": "F-9"}, "frame is 'F-9', which has no packet"),
        ({"joint": "J9"}, "joint is 'J9'; D has J1"),
    ],
)
def test_an_unknown_name_is_said(told: dict[str, Any], said: str):
    """A person, a frame or a joint the record does not know is named, with what is known where that is short."""
    assert said in str(remarks(**told))


def test_a_joint_is_not_doubted_without_its_design():
    """Control: where the design is not in the record, nothing is said of the joint."""
    without = Registers(people=KNOWN.people, packets=KNOWN.packets)
    assert remarks(without, joint="J9") is None
