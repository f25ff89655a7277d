"""A customer's details go for good by an owner's signed line: everywhere at once, and never round a hold or a claim."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from server.evidence.canonical import canonical_line
from server.evidence.chain_subject import ChainSubject
from server.facts.customers import NamelessCustomer
from server.pages.claims.page import said_by
from server.record.book_of_lines import Record, now_ms
from server.record.lines import NewLine
from server.record.record_check import check_record
from server.record.written import Written
from server.settings import Settings
from server.upkeep.backing_up import back_up, drill_newest
from server.upkeep.shelf import backups_on
from server.work.claims import add_step, claim_file, open_claim
from server.work.customer_sheet import customer_sheet, customer_sheets
from server.work.dossier import dossier
from server.work.dossier_scope import LEFT_OUT
from server.work.legal_hold import HoldAsked, hold
from server.work.load_folder import Loaded, load_folder
from server.work.refusal import NotThere
from server.work.remove_details import RemovalAsked, RemovalRefused, remove_details
from server.work.shop_folder import read_shop_folder
from server.work.signature import Signing
from server.work.still_holds import still_holds
from server.work.touched import touched_by
from server.work.who_has_it import who_has_it
from server.work.without_names import without_names
from tests.record.tampering import tamper
from tests.work.small_shop import LEAD, OWNER, open_shop, tell
from tests.work.test_claims import STEP, TOLD
from tests.work.test_dossier import WORDING

NAME, REASON = "Ines Farol", "the customer asked for it by letter"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


def remove(shop: Record, customer: str = "CU-1", reason: str = REASON, by: Signing = OWNER) -> str:
    return remove_details(shop, RemovalAsked(customer, reason, (by,)), now_ms())


def put_on_hold(shop: Record, act: str) -> str:
    return shop.write(lambda reads: hold(reads, HoldAsked("SW-1", act, "counsel asked", (OWNER,)), now_ms())).result()


def claim(shop: Record, **told: Any) -> str:
    return shop.write(lambda reads: open_claim(reads, replace(TOLD, **told), now_ms())).result()


def decide(shop: Record, number: str, settled: str, at_ms: int) -> None:
    step = replace(STEP, claim=number, step="decision", settled=settled, signings=(OWNER, LEAD), at_ms=at_ms)
    shop.write(lambda reads: add_step(reads, step, now_ms())).result()


def test_removed_the_number_is_left_everywhere(shop: Record, tmp_path: Path):
    """Who has the frame, the dossier, the claim's reporter and the register read the same words; all still adds up."""
    tell(shop, kind="ownership", id="O", frame="SW-1", customer="CU-1", since="2030-01-01")
    number = claim(shop)
    decide(shop, number, "closed", STEP.at_ms)
    line = remove(shop)
    files = [each for each in tmp_path.glob("record.sqlite3*") if each.is_file()]
    assert [each.name for each in files if NAME.encode() in each.read_bytes()] == []
    with shop.reads() as reads:
        registers = reads.registers()
        said = registers.customers["CU-1"].name
        assert said.startswith("details removed on ")
        assert said.endswith(" at the customer's request")
        assert who_has_it(registers, "SW-1") == said
        assert said_by(claim_file(registers, number).claim, registers.customers) == said
        assert [each["customer"] for each in dossier(reads, "SW-1", WORDING)["owners"]] == [said]
        assert "details removed" not in json.dumps(dossier(reads, "SW-1", WORDING, "customer"))
        assert registers.packets["SW-1"].customer == "CU-1"
        removal = registers.customer_removals["CU-1"]
        assert (removal.id, removal.reason, removal.signatures[0].role) == (line, REASON, "owner")
        everything = reads.lines_between(1, reads.last_position())
        assert not any(NAME.encode() in each.body + each.envelope for each in everything)
    assert check_record(f"sqlite:///{tmp_path / 'record.sqlite3'}", tmp_path).odd == ()


def test_a_legal_hold_keeps_them(shop: Record):
    """While a frame of the customer is under hold the hold is named and nothing goes; lifted, it goes."""
    number = put_on_hold(shop, "placed")
    with pytest.raises(RemovalRefused, match=f"SW-1 is under legal hold {number}: counsel asked. An owner lifts it"):
        remove(shop)
    put_on_hold(shop, "lifted")
    assert remove(shop)


def test_a_claim_they_were_told_of_and_a_containment_keep_them(shop: Record):
    """Whoever was written to in an open claim, or whose frame is to be contained, can still be found."""
    tell(shop, kind="customer", id="CU-2", name="Bea Other")
    number = claim(shop)
    tell_step = replace(STEP, claim=number, step="letter", to="CU-2")
    shop.write(lambda reads: add_step(reads, tell_step, now_ms())).result()
    with pytest.raises(RemovalRefused, match=f"claim {number} about SW-1 is open; decide"):
        remove(shop, "CU-2")
    decide(shop, number, "closed", now_ms())
    assert remove(shop, "CU-2")
    opened = {"because": "a bad cylinder", "notice": "please send it back", "known_at": 1, "written_by": "OWN"}
    told = {"kind": "containment", "id": "CT-1", "title": "lot 7", "frames": ["SW-1"], "at": "2030-01-02T10:00:00.000Z"}
    tell(shop, **told, **opened)
    with pytest.raises(RemovalRefused, match="containment CT-1 is not done about SW-1: lot 7"):
        remove(shop)
    step = {"kind": "containment step", "id": "CT-1/9", "containment": "CT-1", "frame": "SW-1", "act": "done"}
    tell(shop, **step, at="2030-01-03T10:00:00.000Z", words="came back and was made anew", written_by="OWN")
    assert remove(shop)


@pytest.mark.parametrize("about", [{}, {"reported_by": "somebody else"}])
def test_an_open_claim_keeps_them(shop: Record, about: dict[str, str]):
    """A claim reported by the customer, or about a frame of theirs, keeps them until it is decided to be closed."""
    number = claim(shop, **about)
    decide(shop, number, "refused", STEP.at_ms - 100)
    with pytest.raises(RemovalRefused, match=f"claim {number} about SW-1 is open, last decided: refused"):
        remove(shop)
    decide(shop, number, "closed", STEP.at_ms)
    assert remove(shop)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"reason": " "}, "reason: too short"),
        ({"reason": "FAROL asked for it"}, "reason: 'FAROL' is part of what is to be removed"),
        ({"by": LEAD}, "removed by an owner"),
    ],
)
def test_what_is_wrong_is_named(shop: Record, asked: dict[str, object], said: str):
    """A reason that says nothing or says the name, and a hand that is no owner's, remove nothing."""
    with pytest.raises(RemovalRefused, match=said):
        remove(shop, **asked)  # type: ignore[arg-type]
    with shop.reads() as reads:
        assert reads.registers().customers["CU-1"].name == NAME


def test_nobody_is_removed_twice_or_unknown(shop: Record):
    """What is removed has nothing more to remove, the same sent twice is the first, a number nobody has is named."""
    number = remove(shop)
    assert remove(shop) == number
    with pytest.raises(RemovalRefused, match=r"CU-1: details removed on .* request; there is nothing to remove"):
        remove(shop, reason="another letter came")
    with pytest.raises(NotThere, match="'CU-9' is no customer's number"):
        remove(shop, "CU-9")


def test_nothing_is_judged_again_for_it(shop: Record):
    """Neither a customer told nor the details removed touch a frame."""
    with shop.reads() as reads:
        told = reads.last_position()
    tell(shop, kind="customer", id="CU-2", name="Bea Other")
    remove(shop)
    with shop.reads() as reads:
        lines = reads.lines_between(told + 1, reads.last_position())
        assert [each.kind for each in lines] == ["customer number", "details removed"]
        assert touched_by(reads, lines) == (frozenset(), False)


def test_another_customer_stays(shop: Record):
    """Only the details of the one asked for go."""
    tell(shop, kind="customer", id="CU-2", name="Bea Other", address="2 Other Lane")
    remove(shop)
    with shop.reads() as reads:
        named = {each.customer.id: each.stands for each in customer_sheets(reads.registers())}
        assert reads.registers().customers["CU-2"].address == "2 Other Lane"
    assert named == {"CU-1": False, "CU-2": True}


def test_loaded_again_the_name_does_not_come_back(shop: Record, tmp_path: Path):
    """The folder still tells the customer: nothing is added, and the number is told as left out; changed, likewise."""
    folder = tmp_path / "shop"
    assert load_folder(shop, read_shop_folder(folder), now_ms()).added == 0
    remove(shop)
    read = read_shop_folder(folder)
    assert load_folder(shop, read, now_ms()) == Loaded(read.lines, 0, ("CU-1",))
    sheet = folder / "customers.toml"
    sheet.write_text(sheet.read_text() + 'address = "a new one"\n')
    assert load_folder(shop, read_shop_folder(folder), now_ms())[1:] == (0, ("CU-1",))
    with shop.reads() as reads:
        assert isinstance(reads.registers().customers["CU-1"], NamelessCustomer)


def test_told_in_other_words_both_tellings_go(shop: Record, tmp_path: Path):
    """A customer told again in the folder stands in two rows; loaded once more nothing is added, removed both go."""
    sheet = tmp_path / "shop" / "customers.toml"
    sheet.write_text(sheet.read_text() + 'address = "7 Sorrel Lane"\n')
    added = [load_folder(shop, read_shop_folder(tmp_path / "shop"), now_ms()).added for _ in range(2)]
    assert added == [1, 0]
    remove(shop)
    with shop.reads() as reads:
        assert [(each.details, each.salt) for each in reads.customer_details()] == [(None, None)] * 2


def test_the_same_folder_is_the_same_bytes_under_the_same_salt_only(tmp_path: Path):
    """Two shops that load one folder seal different digests, and equal ones where the salt is given."""
    (tmp_path / "a").mkdir()
    # A shop that is opened is a copy of one that was loaded once, so the others are loaded here.
    made = [open_shop(tmp_path / "a"), Record.open(f"sqlite:///{tmp_path / 'b'}.sqlite3", tmp_path)]
    load_folder(made[1], read_shop_folder(tmp_path / "a" / "shop"), 7)
    fixed = [Record.open(f"sqlite:///{tmp_path / name}.sqlite3", tmp_path) for name in "cd"]
    for each in fixed:
        load_folder(each, read_shop_folder(tmp_path / "a" / "shop"), 7, salt=lambda: bytes(32))
    sealed = [_sealed(each) for each in (*made, *fixed)]
    for each in (*made, *fixed):
        each.close()
    assert len(set(sealed[:3])) == 3
    assert sealed[2] == sealed[3]


def _sealed(record: Record) -> bytes:
    with record.reads() as reads:
        (line,) = (each for each in reads.told_lines() if each.kind == "customer number")
    return line.body


def test_a_customer_of_before_stays_and_says_why(shop: Record):
    """A line sealed with its name is read as ever; its removal is refused with the position the name stands at."""
    words = {"kind": "customer", "id": "CU-0", "name": "Olga Former"}
    register = (ChainSubject("register", "customer"),)
    line = NewLine("customer", "CU-0", "IMPORT", canonical_line(words), now_ms(), subjects=register)
    placed = shop.write(lambda _: Written(answer=lambda placed: placed, lines=(line,))).result()
    with shop.reads() as reads:
        assert customer_sheet(reads.registers(), "CU-0").customer.name == "Olga Former"
    with pytest.raises(RemovalRefused, match=f"CU-0 was told before .* at position {placed[0].position} and"):
        remove(shop, "CU-0")


def test_what_was_typed_in_words_is_told_and_left_out(shop: Record):
    """A sealed paper that says the name is named by the receipt, and a customer's version leaves its words out."""
    about = {"kind": "nonconformity", "id": "NC-7", "title": f"as {NAME} wrote", "findings": ["SW-1/A#1|inside-colour"]}
    tell(shop, **about, held=["SW-1/A#1"], containment="set aside")
    with shop.reads() as reads:
        assert NAME in dossier(reads, "SW-1", WORDING)["nonconformities"][0]["title"]
    remove(shop)
    with shop.reads() as reads:
        removal = reads.registers().customer_removals["CU-1"]
        theirs = dossier(reads, "SW-1", WORDING, "customer")["nonconformities"][0]
    assert removal.also_typed_in == ("NC-7",)
    assert (theirs["title"], theirs["containment"]) == (LEFT_OUT, LEFT_OUT)


def test_the_words_for_a_removed_name_are_taken_for_no_name(shop: Record):
    """A month that stands in "details removed on" is a month in a customer's version too, and the number is hidden."""
    remove(shop)
    with shop.reads() as reads:
        registers = reads.registers()
    month = registers.customers["CU-1"].name.split()[4]
    assert without_names(f"in {month} for CU-1", registers).told == f"in {month} for a customer"


def test_what_may_still_hold_them_is_told(shop: Record, tmp_path: Path):
    """Backups made before are counted, with when the last goes; one made after holds nothing and passes the drill."""
    settings, day_ms = Settings(data_folder=tmp_path), 86_400_000
    back_up(settings, now_ms() - day_ms)
    (tmp_path / "record-before-x.sqlite3").write_bytes(b"an older copy")
    remove(shop)
    with shop.reads() as reads:
        removal = reads.registers().customer_removals["CU-1"]
    aside, backups, elsewhere = still_holds(settings, removal, log_is_empty=True)
    assert "record-before-x.sqlite3" in aside
    assert backups.startswith(f"1 of the backups in {tmp_path}")
    assert "The newest 14 are kept" in backups
    assert "the shop folder" in elsewhere
    assert "write-ahead log" in still_holds(settings, removal, log_is_empty=False)[0]
    back_up(settings, now_ms())
    assert drill_newest(settings, now_ms()).odd == ()
    before, after = [(each / "record.sqlite3").read_bytes() for each in backups_on(settings.shelf)]
    assert (b"Farol" in before, b"Farol" in after) == (True, False)


def test_a_backup_with_altered_details_fails_the_drill(shop: Record, tmp_path: Path):
    """Control: details altered before the backup was made are named by its drill."""
    tamper(tmp_path / "record.sqlite3", "UPDATE customer_details SET details = replace(details, 'Farol', 'Lofar')")
    settings = Settings(data_folder=tmp_path)
    back_up(settings, now_ms())
    assert "details of customer CU-1" in drill_newest(settings, now_ms()).odd[0]


def test_the_words_for_postgresql(shop: Record, tmp_path: Path):
    """There the emptied row stays in the table's file until a full VACUUM, which is said; and no backup is ours."""
    remove(shop)
    with shop.reads() as reads:
        removal = reads.registers().customer_removals["CU-1"]
    settings = Settings(data_folder=tmp_path, database="postgresql+psycopg://shop@db/record")
    assert "VACUUM FULL customer_details" in still_holds(settings, removal, log_is_empty=True)[0]
