"""A claim is a file of its own: told in the shop's words, refused with a reason, and never part of the weld record."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.claims import STEPS, ClaimFile, ClaimRefused, ClaimTold, StepTold, add_step, claim_file, open_claim
from server.work.judge_new import judge_new
from server.work.refusal import NotThere
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, a_pass, open_shop, send

TOLD = ClaimTold("SW-1", "A", "q9", "CU-1", now_ms() - 2000, now_ms() - 1000, "it creaks", "OWN")
STEP = StepTold("", "laboratory result", now_ms() - 500, "fatigue from the toe", "OWN", to="a laboratory")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, a_pass(Tablet("SLATE"), "1:10"))
    yield made
    made.close()


def start(shop: Record, told: ClaimTold = TOLD) -> str:
    return shop.write(lambda reads: open_claim(reads, told, now_ms())).result()


def add(shop: Record, **told: object) -> str:
    step = replace(STEP, **told)  # type: ignore[arg-type]
    return shop.write(lambda reads: add_step(reads, step, now_ms())).result()


def read(shop: Record, number: str) -> ClaimFile:
    with shop.reads() as reads:
        return claim_file(reads.registers(), number)


def test_a_claim_says_when_the_shop_knew(shop: Record):
    """What was reported, its place, and the shop's own clock line stand in the file as told."""
    claim = read(shop, start(shop)).claim
    assert (claim.serial, claim.joint, claim.quarter, claim.symptom) == ("SW-1", "A", "q9", "it creaks")
    assert (claim.reported, claim.knew) == (TOLD.reported_ms, TOLD.knew_ms)


def test_steps_stand_in_the_order_of_time(shop: Record):
    """Steps are read in the order they happened, whenever they were written."""
    number = start(shop)
    add(shop, claim=number, words="second")
    add(shop, claim=number, words="first", at_ms=STEP.at_ms - 100)
    assert [each.words for each in read(shop, number).steps] == ["first", "second"]


def test_the_weld_record_is_not_touched(shop: Record):
    """Neither the frame's own lines nor its verdicts are changed by a claim."""
    with shop.reads() as reads:
        lines, verdicts = reads.lines_of_frame("SW-1"), reads.verdicts_of_frame("SW-1")
    number = start(shop)
    add(shop, claim=number)
    judge_new(shop)
    with shop.reads() as reads:
        assert reads.lines_of_frame("SW-1") == lines
        assert reads.verdicts_of_frame("SW-1") == verdicts


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"serial": "SW-9"}, "serial: 'SW-9' is no serial"),
        ({"serial": " sw-1"}, "did you mean SW-1?"),
        ({"joint": "Z"}, "joint: 'Z' is no joint of SW-1"),
        ({"quarter": "q5"}, "quarter: 'q5'"),
        ({"knew_ms": now_ms() + 86_400_000}, "knew: .* has not come yet"),
        ({"reported_ms": now_ms() + 86_400_000}, "reported: .* has not come yet"),
        ({"symptom": " "}, "symptom: ' ' is too short"),
        ({"reported_by": ""}, "reported by: '' is too short"),
        ({"reported_by": "CU-77"}, "reported by: 'CU-77' is no customer's number the record knows"),
    ],
)
def test_what_is_wrong_is_named(shop: Record, wrong: dict[str, object], said: str):
    """A claim that cannot stand is refused with the field, the value and what to do."""
    with pytest.raises(ClaimRefused, match=said):
        start(shop, replace(TOLD, **wrong))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"step": "gossip"}, "step: 'gossip' is none"),
        ({"step": "containment", "to": ""}, "to: empty; a containment names who was told"),
        ({"step": "letter", "to": "CU-77"}, "to: 'CU-77' is no customer's number the record knows"),
        ({"step": "decision"}, "settled: ''; say what is decided"),
        ({"step": "decision", "settled": "refund"}, "a decision is signed by a quality lead or an owner"),
        ({"step": "decision", "settled": "repair", "signings": (OWNER,)}, "signed in both roles; still to sign: qual"),
        ({"serial": "SW-9"}, "serial: 'SW-9'"),
        ({"at_ms": now_ms() + 86_400_000}, "at: .* has not come yet"),
        ({"words": ""}, "words: '' is too short"),
    ],
)
def test_what_is_wrong_with_a_step_is_named(shop: Record, wrong: dict[str, object], said: str):
    """A step that cannot stand is refused with the field, the value and what to do."""
    number = start(shop)
    with pytest.raises(ClaimRefused, match=said):
        add(shop, claim=number, **wrong)


def test_a_decision_carries_its_signature(shop: Record):
    """A decision signed by the owner says who, in which role, over what."""
    number = start(shop)
    add(shop, claim=number, step="decision", settled="refund", words="money back", signings=(OWNER,))
    (signed,) = read(shop, number).of("decision")[0].signatures
    assert (signed.person, signed.role) == ("OWN", "owner")
    assert len(signed.shown_sha256) == 64


def test_a_repair_is_decided_in_both_roles(shop: Record):
    """Owner and quality lead together sign that a claimed frame is repaired, and both stand on the step."""
    number = start(shop)
    add(shop, claim=number, step="decision", settled="repair", words="at our cost", signings=(OWNER, LEAD))
    (step,) = read(shop, number).of("decision")
    assert step.settled == "repair"
    assert {each.role for each in step.signatures} == {"owner", "quality lead"}


def test_an_unknown_claim_is_said(shop: Record):
    """Nothing is added to a claim that is not there."""
    with pytest.raises(NotThere, match="W-0"):
        add(shop, claim="W-0")
    assert "containment" in STEPS
