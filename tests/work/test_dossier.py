"""A dossier is told from the record: what was welded, under what, who signed; for a customer without anybody's name."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from server.facts.moment import show_moment
from server.facts.people import Person
from server.record.book_of_lines import Record, now_ms
from server.work.dossier import ForWhom, dossier
from server.work.dossier_joints import Wording
from server.work.judge_new import judge_new
from server.work.legal_hold import HoldAsked, hold
from server.work.refusal import NotThere
from server.work.without_names import without_names
from tests.story.log import Tablet, clock_now
from tests.work.small_shop import OWNER, a_pass, accept_all, open_shop, pass_gate, send, tell, weld_it_all

WORDING = Wording(lambda entry: entry.kind, str, str)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    made = open_shop(Path(tmp_path_factory.mktemp("shop")))
    send(made, *weld_it_all(Tablet("SLATE")))
    accept_all(made)
    pass_gate(made, "final inspection")
    judge_new(made)
    yield made
    made.close()


def told(shop: Record, for_whom: ForWhom = "shop"):
    with shop.reads() as reads:
        return dossier(reads, "SW-1", WORDING, for_whom)


def test_every_entry_of_every_joint_is_in_it(shop: Record):
    """Three joints of a tack, a root and a fill each, and the signed inspection with who signed it."""
    found = told(shop)
    kinds = [[each["kind"] for each in joint["attempts"][0]["entries"]] for joint in found["joints"]]
    assert kinds == [["tack", "pass", "pass"]] * 3
    signed = [(each["permits"], each["signatures"][0]["person"]) for each in found["permissions"]]
    assert ("final inspection", "LEA") in signed


def test_a_reading_names_its_value_and_what_gave_it(shop: Record):
    """Each value carries its unit, how it is known and by which instrument."""
    volts = next(v for v in told(shop)["joints"][0]["attempts"][0]["entries"][1]["values"] if v["name"] == "volts")
    assert (volts["value"], volts["unit"], volts["how"]) == (10.0, "V", "counted")
    assert volts["by"]


def test_the_procedures_stand_in_it_in_full(shop: Record):
    """The revision in force on the day of the weld is in it with its whole text and its digest."""
    import hashlib

    for each in told(shop)["procedures"]:
        assert hashlib.sha256(each["text"].encode()).hexdigest() == each["sha256"]
    assert told(shop)["procedures"]


def test_a_customer_reads_no_name(shop: Record):
    """Neither a person's name nor their id, nor a customer's, stands anywhere in the customer's version."""
    with shop.reads() as reads:
        registers = reads.registers()
    own, theirs = json.dumps(told(shop)), json.dumps(told(shop, "customer"))
    people = [word for each in registers.people.values() for word in (each.id, each.name)]
    customers = [word for each in registers.customers.values() for word in (each.id, each.name)]
    assert any(f'"{word}"' in own for word in people)
    assert [word for word in (*people, *customers) if f'"{word}"' in theirs or f" {word}" in theirs] == []
    assert "welder 1" in theirs


def test_a_joint_that_bears_a_persons_id_stays_a_joint(shop: Record):
    """Somebody whose id is also a joint's name is a role where people stand, and the joint keeps its name."""
    with shop.reads() as reads:
        registers = reads.registers()
    ash = Person(id="A", name="Ann Ash", roles=("finisher",))
    both = replace(registers, people={**registers.people, "A": ash})
    told_of = {"joint": "A", "who": "A", "note": "Ann Ash saw A", "people": [{"id": "A", "roles": ["finisher"]}]}
    assert without_names(told_of, both).told == {
        "joint": "A",
        "who": "finisher 1",
        "note": "[finisher 1] saw A",
        "people": [{"id": "finisher 1", "roles": ["finisher"]}],
    }


def test_an_unknown_serial_is_said(shop: Record):
    """A serial no packet names is refused by name."""
    with shop.reads() as reads, pytest.raises(NotThere, match="SW-9"):
        dossier(reads, "SW-9", WORDING)


def test_a_joints_dossier_has_that_joint_alone(shop: Record):
    """Its entries, its plan and its cylinders; of the frame its gates; a joint that is not there is said."""
    with shop.reads() as reads:
        found = dossier(reads, "SW-1", WORDING, joint="B")
        assert [each["joint"] for each in found["joints"]] == ["B"]
        assert [each["joint"] for each in found["plan"]] == ["B"]
        assert {entry for on in found["cylinders"] for entry in on["under"]} <= {
            each["id"] for each in found["joints"][0]["attempts"][0]["entries"]
        }
        assert all(any("/B#" in key for key in each["findings"]) for each in found["decisions"])
        assert found["joints"][0]["in_short"]["passes"] == 2
        with pytest.raises(NotThere, match="'Z' is no joint of SW-1"):
            dossier(reads, "SW-1", WORDING, joint="Z")


def test_a_customer_reads_nothing_of_another_frame(tmp_path: Path):
    """A nonconformity over two customers' frames shows each customer their own, in lists and in words."""
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    packet = {"kind": "packet", "id": "SW-2", "frame": "SW-2", "design": "SHED", "size": "S"}
    tell(made, **packet, issued="2030-01-02T10:00:00.000Z")
    held = ["SW-1/A#1", "SW-2/A#1"]
    words = "dull inside, as on SW-2; SW-2's owner CU-2 Bea Other was told"
    tell(made, kind="customer", id="CU-2", name="Bea Other", address="2 Other Lane")
    keys = [f"{each}|inside-colour" for each in held]
    tell(made, kind="nonconformity", id="NC-1", title=words, held=held, findings=keys)
    with made.reads() as reads:
        theirs = json.dumps(dossier(reads, "SW-1", WORDING, "customer"))
        assert "SW-2" in json.dumps(dossier(reads, "SW-1", WORDING))
    made.close()
    assert "SW-1/A#1" in theirs
    assert [each for each in ("SW-2", "CU-2", "Bea", "Other Lane") if each in theirs] == []
    assert "as on another frame" in theirs


def test_a_hold_stands_in_the_dossier_and_the_customer_reads_no_reason(tmp_path: Path):
    """The shop's own dossier says why and who signed; the customer's only that it stands."""
    made = open_shop(tmp_path)
    asked = HoldAsked("SW-1", "placed", "a court may ask", (OWNER,))
    made.write(lambda reads: hold(reads, asked, now_ms())).result()
    with made.reads() as reads:
        own, theirs = dossier(reads, "SW-1", WORDING), dossier(reads, "SW-1", WORDING, "customer")
    made.close()
    assert own["legal_hold"]["reason"] == "a court may ask"
    assert theirs["legal_hold"]["reason"] == ""
    assert theirs["legal_hold"]["shown"] == own["legal_hold"]["shown"]


def test_what_a_weld_rests_on_that_bears_no_serial_is_in_it(tmp_path: Path):
    """The last bead before and the first after, the cylinder that came on and a failed check are told with their ids;
    a check further off is not; the customer reads the same without who made it."""
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(
        made,
        slate.tell("0:05", "bead", line="N-P", result="good"),
        slate.tell("0:10", "bead", line="N-P", result="good"),
        slate.tell("0:20", "cylinder", line="N-P", on="C-2", off="C-1"),
        a_pass(slate, "1:00"),
        slate.tell("4:00", "bead", line="N-P", result="failed"),
        slate.tell("5:00", "bead", line="N-P", result="good"),
    )
    with made.reads() as reads:
        of_shop, customers = (dossier(reads, "SW-1", WORDING, whom, joint="A") for whom in ("shop", "customer"))
    found = {each["id"]: each["what"] for each in of_shop["beside"]}
    assert found == {"SLATE:b1:2": "bead", "SLATE:b1:3": "cylinder", "SLATE:b1:5": "bead"}
    findings = of_shop["joints"][0]["attempts"][0]["findings"]
    assert "SLATE:b1:5" in {entry for each in findings for entry in each["rests_on"]}
    assert [each["id"] for each in customers["beside"]] == list(found)
    assert "WEL" not in json.dumps(customers["beside"])
    made.close()


def test_a_frame_that_came_back_says_so(tmp_path: Path):
    """A dossier tells that the frame is in the house again, until it is sent once more."""
    made = open_shop(tmp_path)
    tell(made, kind="shipment", id="S-1", frame="SW-1", customer="CU-1", at=show_moment(now_ms() - 600_000))
    assert told(made)["back"] is None
    send(made, Tablet("PAD").tell(clock_now(-5), "stage", frame="SW-1", stage="returned"))
    assert told(made)["back"]["shown"]
    tell(made, kind="shipment", id="S-2", frame="SW-1", customer="CU-1", at=show_moment(now_ms()))
    assert told(made)["back"] is None
    made.close()


def test_a_joints_dossier_tells_what_was_usual_and_the_customers_does_not(tmp_path: Path):
    """Beside the joint's oxygen stands that of its sister frame, counted, without its serial; no customer reads it."""
    made = open_shop(tmp_path)
    design = told(made)["design"]
    sister = {"kind": "packet", "id": "SW-2", "frame": "SW-2", "design": design["name"], "size": design["size"]}
    tell(made, issued=show_moment(now_ms() - 3_600_000), **sister)
    slate = Tablet("SLATE")
    send(made, a_pass(slate, "1:00", oxygen="36"), a_pass(slate, "2:00", oxygen="8"))
    elsewhere = a_pass(slate, "3:00", oxygen="7")
    elsewhere["line"] = elsewhere["line"].replace('"frame":"SW-1"', '"frame":"SW-2"')
    send(made, elsewhere)
    with made.reads() as reads:
        of_shop, customers = (dossier(reads, "SW-1", WORDING, whom, joint="A") for whom in ("shop", "customer"))
    oxygen = next(each for each in of_shop["usual"] if each["quantity"] == "oxygen")
    assert (oxygen["here"], oxygen["middle"], oxygen["passes"], oxygen["frames"]) == ([36.0, 8.0], 7.0, 1, 1)
    assert "SW-2" not in json.dumps(of_shop["usual"])
    assert "usual" not in customers
    made.close()
