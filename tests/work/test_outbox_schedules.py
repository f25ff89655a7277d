"""Two thousand shifts over a bad link: what the record takes is what the outbox model says, once each, in order."""

import json
from collections.abc import Iterator
from itertools import count

import pytest
from hypothesis import HealthCheck, given, settings

from server.evidence.canonical import canonical_line
from server.facts.delivery import Receipt
from server.record.book_of_lines import Record, now_ms
from server.record.lines import FIRST_STATES
from server.work.sent_delivery import from_request
from server.work.take_deliveries import take_deliveries
from tests.browser.outbox_model import BATCH, Fate, Model
from tests.browser.schedules import SCHEDULES, Log, Restart, Send, Step

AT = "2026-03-18T12:38:05.000Z"
_names = count()


class Tablet:
    """An outbox as the bench keeps it, speaking to the real record."""

    def __init__(self, record: Record, ids_are_kept: bool = True) -> None:
        self.record, self.ids_are_kept = record, ids_are_kept
        self.device, self.boot = f"TAB-{next(_names)}", 0
        self.waiting: list[tuple[int, str, str]] = []
        self.taken: list[int] = []
        self.told: list[int] = []
        self.sent_as: dict[str, int] = {}
        self.sendings = 0

    def log(self, seq: int, clear: bool) -> None:
        """Save one entry under its id."""
        name = f"{self.device}:{self.boot}:{seq}"
        told = {"kind": "clean" if clear else "never heard of", "id": name, "device": self.device, "seq": seq}
        told |= {"device_time": AT, "happened": AT, "who": "W01", "frame": "F-1", "joint": "J1", "method": "wiped"}
        self.waiting.append((seq, name, canonical_line(told).decode()))

    def send(self, fate: Fate) -> None:
        """Send batch by batch; only a receipt lets an entry go."""
        while self.waiting:
            batch = self.waiting[:BATCH]
            if fate == "request lost":
                return
            sent = [from_request(self._sent(*each), "sent", now_ms()) for each in batch]
            receipts = take_deliveries(self.record, sent)
            if fate != "arrives":
                receipts.result()
                return
            self._settle({receipt.entry: receipt for receipt in receipts.result()})

    def _sent(self, seq: int, name: str, line: str) -> dict[str, object]:
        self.sendings += 1
        if not self.ids_are_kept:
            name = f"{name}:{self.sendings}"
            line = json.dumps(json.loads(line) | {"id": name}, sort_keys=True)
        self.sent_as[name] = seq
        return {"id": f"{name}/{self.sendings}", "device": self.device, "sent_at": AT, "line": line}

    def _settle(self, receipts: dict[str, Receipt]) -> None:
        left = []
        for seq, name, line in self.waiting:
            receipt = receipts.get(name) or next((r for n, r in receipts.items() if n.startswith(f"{name}:")), None)
            if receipt is None:
                left.append((seq, name, line))
            else:
                (self.taken if receipt.understood else self.told).append(seq)
        self.waiting = left


def carried_out(tablet: Tablet, schedule: list[Step]) -> Model:
    """Run a schedule on both, comparing after every step."""
    model = Model()
    for step in schedule:
        if isinstance(step, Log):
            for _ in range(step.times):
                tablet.log(model.log(step.clear), step.clear)
        elif isinstance(step, Send):
            for _ in range(step.tabs):
                tablet.send(step.fate)
            model.send(step.fate)
        elif isinstance(step, Restart):
            tablet.boot += 1
        assert [seq for seq, _, _ in tablet.waiting] == model.waiting
        assert (tablet.taken, tablet.told) == (model.taken, model.told)
        assert model.nothing_is_lost()
    return model


def in_the_record(tablet: Tablet) -> list[int]:
    """The counts of one tablet's entries in the order the record took them, under whatever ids they were sent."""
    with tablet.record.reads() as reads:
        sendings = reads.sendings(tablet.sent_as)
    first = [(sent.position, name) for name, times in sendings.items() for sent in times if sent.state in FIRST_STATES]
    return [tablet.sent_as[name] for _, name in sorted(first)]


@pytest.fixture(scope="module")
def shared_record(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    """One record for all schedules; every schedule is a tablet of its own."""
    record = Record.open(f"sqlite:///{tmp_path_factory.mktemp('schedules') / 'record.sqlite3'}")
    yield record
    record.close()


@settings(max_examples=2000, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(schedule=SCHEDULES)
def test_no_schedule_loses_or_doubles_an_entry(shared_record: Record, schedule: list[Step]) -> None:
    """After every step the outbox is as the model has it, and in the end the record holds each sent entry once."""
    tablet = Tablet(shared_record)
    model = carried_out(tablet, schedule)
    assert in_the_record(tablet) == model.record


def test_ids_that_change_on_resending_are_caught(shared_record: Record) -> None:
    """Control: a tablet that makes a new id for every sending doubles its entries, and the model sees it."""
    tablet = Tablet(shared_record, ids_are_kept=False)
    model = carried_out(tablet, [Log(2, True), Send("answer lost", 1), Send("arrives", 1)])
    assert model.record == [1, 2]
    assert in_the_record(tablet) == [1, 2, 1, 2]
