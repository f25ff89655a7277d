"""Words typed anywhere go to a customer without the names the record knows; the record and the shop keep them."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.work.dossier import ForWhom, dossier
from server.work.dossier_joints import Wording
from server.work.without_names import without_names
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, a_pass, open_shop, send, sign, tell

WORDING = Wording(lambda entry: f"{entry.kind}: {getattr(entry, 'words', getattr(entry, 'reason', ''))}", str, str)
NAMES = ("Vane", "Quin", "Moor", "Ole", "Hart", "Fenn", "AV", "O.H.", "WEL", "STRANGER")


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[ForWhom, dict[str, Any]]:
    """A frame with a name in everything that can be typed; the welder was once told under another name."""
    shop = open_shop(Path(tmp_path_factory.mktemp("shop")))
    _type(shop)
    with shop.reads() as reads:
        found = {each: dossier(reads, "SW-1", WORDING, each) for each in ("shop", "customer")}
    shop.close()
    return found  # type: ignore[return-value]


def _type(shop: Record) -> None:
    tablet = Tablet("SLATE")
    tell(shop, kind="person", id="WEL", name="Ada Fenn", roles=["welder"])
    welded = a_pass(tablet, "1:10", oxygen="900", note="as ADA VANE wanted", late_reason="fenn was away, AV told me")
    send(
        shop,
        welded,
        tablet.on_joint("1:15", "look", "A", who="STRANGER", side="inside", answer="no access", reason="asked Ole"),
        tablet.tell("1:20", "problem", frame="SW-1", joint="A", words="O.H. and q. moor looked at PW-1"),
        tablet.tell("1:25", "correction", of=json.loads(welded["line"])["id"], change={"cup": None}, reason="Quin's"),
    )
    with shop.reads() as reads:
        keys = [each.key for each in reads.findings(frame="SW-1")][:1]
    sign(shop, "accept", keys, LEAD, reason="Ole Hart was asked")


def _stands(name: str, words: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", words, re.IGNORECASE) is not None


def _typed(told: dict[str, Any]) -> str:
    return json.dumps({name: told[name] for name in ("joints", "way", "decisions")}, ensure_ascii=False)


def test_a_customer_reads_no_name_in_anything_typed(told: dict[ForWhom, dict[str, Any]]):
    """Notes, late reasons, problems, looks, corrections and decisions; the shop's own version has each of them."""
    own, theirs = _typed(told["shop"]), _typed(told["customer"])
    assert [each for each in NAMES if not _stands(each, own)] == []
    assert [each for each in NAMES if _stands(each, theirs)] == []
    assert "PW-1" in theirs


def test_the_places_are_counted_and_what_may_remain_is_said(told: dict[ForWhom, dict[str, Any]]):
    """Each bracket is one place; the shop's version says nothing of it."""
    names = told["customer"]["typed_names"]
    put = re.findall(r"\[(?:welder|quality lead|owner) 1\]", _typed(told["customer"]))
    assert names["replaced"] == len(put) >= len(NAMES) - 2
    assert "does not know" in names["says"]
    assert "typed_names" not in told["shop"]


def test_the_lines_are_the_same_for_both(told: dict[ForWhom, dict[str, Any]]):
    """Nothing of the sealed record differs: the same positions and leaves."""
    leaves = [[(each["position"], each["leaf"]) for each in one["lines"]] for one in told.values()]
    assert leaves[0] == leaves[1]


def test_somebody_the_record_does_not_know_is_a_person(told: dict[ForWhom, dict[str, Any]]):
    """An entry in the name of nobody registered stands as made by a person."""
    looks = [each for each in told["customer"]["joints"][0]["attempts"][0]["entries"] if each["kind"] == "look"]
    assert [each["who"] for each in looks] == ["a person"]
    assert without_names({"who": ""}, Registers()).told == {"who": ""}
