"""Whatever order people and tablets act in, no permission is given while something they know of is open."""

import shutil
import tempfile
from pathlib import Path
from typing import get_args

from hypothesis import settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from hypothesis.strategies import sampled_from

from server.judgement.gates import Gate
from server.record.book_of_lines import Record, now_ms
from server.work.decide import FactsChanged
from server.work.judge_new import judge_new
from server.work.refusal import Refusal
from server.work.sent_delivery import from_request
from server.work.signature import Signing
from server.work.take_deliveries import take_deliveries
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, a_pass, accept_all, open_shop, pass_gate, send, sign, weld_it_all

GATES = [gate for gate in get_args(Gate) if gate != "hold point"]
SIGNERS = [LEAD, OWNER, Signing("WEL", "", "SLATE", "welder", "released")]
_TEMPLATE: list[Path] = []


def a_welded_frame() -> Path:
    """Make the frame once, welded with good gas and every question about it accepted, and copy it for each run."""
    if not _TEMPLATE:
        folder = Path(tempfile.mkdtemp())
        record = open_shop(folder)
        send(record, *weld_it_all(Tablet("SLATE")))
        accept_all(record)
        record.close()
        _TEMPLATE.append(folder)
    copied = Path(tempfile.mkdtemp())
    shutil.copytree(_TEMPLATE[0], copied, dirs_exist_ok=True)
    return copied


class TheWayOut(RuleBasedStateMachine):
    """Tells bad passes, judges or not, decides, signs at gates; remembers by itself what must not get through."""

    @initialize()
    def begin(self) -> None:
        """Open the shop with the frame ready to be inspected."""
        self.folder = a_welded_frame()
        self.record = Record.open(f"sqlite:///{self.folder / 'record.sqlite3'}", self.folder)
        self.tablet = Tablet("PAD")
        self.bad: dict[str, str] = {}
        self.given: list[str] = []

    @rule(joint=sampled_from("ABC"))
    def a_bad_pass_comes_in(self, joint: str) -> None:
        """A pass with air in its purge is taken; nobody has judged it yet."""
        told = a_pass(self.tablet, "5:00", joint, oxygen="300")
        take_deliveries(self.record, [from_request(told, "sent", now_ms())]).result()
        self.bad[joint] = "open"

    @rule()
    def the_judge_runs(self) -> None:
        """What came in is judged."""
        judge_new(self.record)

    @rule(joint=sampled_from("ABC"), choice=sampled_from(["accept", "rework", "scrap", "hold", "end of hold"]))
    def somebody_decides(self, joint: str, choice: str) -> None:
        """The owner decides on the air in one purge, as far as it is known."""
        try:
            sign(self.record, choice, [f"SW-1/{joint}#1|purge-o2"], OWNER)
        except (Refusal, FactsChanged):
            return
        if self.bad.get(joint):
            self.bad[joint] = "accepted" if choice == "accept" and self.is_judged() else "open"

    @rule(gate=sampled_from(GATES), signer=sampled_from(SIGNERS))
    def somebody_signs(self, gate: Gate, signer: Signing) -> None:
        """Somebody signs at a gate; where it opens, everything known must have allowed it."""
        try:
            pass_gate(self.record, gate, signer)
        except Refusal:
            return
        assert signer in (LEAD, OWNER), "only a lead or an owner signs"
        assert "open" not in self.bad.values(), f"{gate} was signed while {self.bad} was open"
        assert self.given[-1:] != ["ship"] or gate != "ship"
        before = {"release": "final inspection", "ship": "release"}.get(gate)
        assert before is None or before in self.given
        self.given.append(gate)

    @rule()
    def the_owner_accepts_everything(self) -> None:
        """Everything judged so far is accepted, so that gates open in some runs; work sent back stays to be done."""
        judge_new(self.record)
        accept_all(self.record)

    def is_judged(self) -> bool:
        """Tell whether everything that came in is judged."""
        with self.record.reads() as reads:
            return reads.judged_to() >= reads.last_position()

    @invariant()
    def a_frame_leaves_once(self) -> None:
        """However often it is tried, there is one shipment."""
        with self.record.reads() as reads:
            assert len(reads.registers().shipments) == self.given.count("ship") <= 1

    def teardown(self) -> None:
        """Close the shop."""
        self.record.close()
        shutil.rmtree(self.folder)


TheWayOut.TestCase.settings = settings(max_examples=15, stateful_step_count=15, deadline=None)
TestTheWayOut = TheWayOut.TestCase


def test_the_gates_do_open() -> None:
    """Control: with everything accepted and judged the same frame is inspected, released and shipped."""
    way = TheWayOut()
    way.begin()
    for gate in GATES:
        way.the_judge_runs()
        way.somebody_signs(gate, LEAD)
    assert way.given == GATES
    way.teardown()
