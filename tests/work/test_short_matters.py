"""Where findings stand in short is carried on from decision to decision, and is what reading all of them would give."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, cast

import pytest

from server.facts.registers import Registers
from server.judgement.matters import matters_among
from server.record.book_of_lines import Record
from server.record.reads import Reads
from server.work.morning_list import morning_list
from server.work.short_matters import ShortMatters
from tests.story.log import Tablet, value
from tests.work.small_shop import OWNER, a_pass, open_shop, send, sign, tell

TOO_MUCH = "SW-1/A#1|purge-o2"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def states(reads: Reads) -> dict[str, str]:
    return {each.finding.key: each.state for each in ShortMatters(reads, reads.registers()).keeping()}


def from_all(reads: Reads) -> dict[str, str]:
    standing = matters_among(reads.findings(), replace(reads.registers(), looked_up={}))
    return {each.finding.key: each.state for each in standing if each.keeps_the_frame}


class Anew:
    """The same reads with nothing gathered from the registers yet."""

    def __init__(self, reads: Reads) -> None:
        self._reads = reads

    def registers(self) -> Registers:
        """Give the registers as if they were just read."""
        return replace(self._reads.registers(), looked_up={})

    def __getattr__(self, name: str) -> Any:
        """Ask anything else as it is."""
        return getattr(self._reads, name)


def test_it_is_carried_on_as_it_would_be_read_anew(shop: Record):
    """After a judging, a decision, a hold, its end and a late correction the same stands in the same state."""
    slate = Tablet("SLATE")
    sent = a_pass(slate, "1:00", oxygen="300")
    seen = []
    for step in (
        lambda: send(shop, sent),
        lambda: sign(shop, "hold", [TOO_MUCH], OWNER),
        lambda: sign(shop, "end of hold", [TOO_MUCH], OWNER),
        lambda: sign(shop, "rework", [TOO_MUCH], OWNER),
        lambda: send(shop, a_pass(slate, "2:00", "B", oxygen="300")),
        lambda: send(shop, slate.tell("3:00", "correction", of="SLATE:b1:1", reason="misread",
                                      change={"values": {"oxygen": value("310", "ppm", "typed")}})),
        lambda: sign(shop, "rework", [TOO_MUCH], OWNER),
        lambda: sign(shop, "accept", [TOO_MUCH], OWNER),
    ):  # fmt: skip
        step()
        with shop.reads() as reads:
            assert states(reads) == from_all(reads)
            assert morning_list(reads) == morning_list(cast(Reads, Anew(reads)))
            seen.append(states(reads).get(TOO_MUCH, "decided"))
    assert seen == ["open", "held", "open", "decided", "decided", "look again", "decided", "decided"]


def test_after_one_more_line_nothing_is_gone_through_again(shop: Record):
    """A customer told changes nothing of what waits: the very same answer stands, also beside the new registers."""
    send(shop, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))

    def known() -> dict[str, int]:
        with shop.reads() as reads:
            registers = reads.registers()
            ShortMatters(reads, registers).keeping()
        return {name: id(found) for name, (_, found) in registers.looked_up.items() if name.startswith("waiting")}

    before = known()
    tell(shop, kind="customer", id="C-9", name="One More", address="somewhere")
    assert known() == before != {}
