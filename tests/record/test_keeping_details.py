"""A customer's details stand beside the sealed line, are guarded there, and once removed are gone from the file."""

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import Connection, create_engine, text
from sqlalchemy.exc import DBAPIError

from server.evidence.canonical import canonical_line
from server.evidence.salted import salted_digest
from server.facts.customers import NamelessCustomer
from server.facts.moment import show_moment
from server.facts.register_line import REGISTER_LINE
from server.record import engines
from server.record.book_of_lines import Record
from server.record.details_guards import removal_id
from server.record.keeping_details import KeptDetails, empty_details, keep_details
from server.record.lines import NewLine
from server.record.record_check import check_record
from server.record.register_lines import register_line
from server.record.written import Written
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry
from tests.record.tampering import tamper

DETAILS = canonical_line({"name": "Quillon Umberfell", "address": "9 Parsnip Row"})
SALT, NOW = bytes(range(32)), 1_790_000_000_000
ASIDE = "the details of customer C-1, position 1,"


def line_of(told: Mapping[str, object]) -> NewLine:
    return register_line(REGISTER_LINE.validate_python(told), "house", NOW, body=canonical_line(told))


def told(position: int, details: bytes = DETAILS, customer: str = "C-1") -> tuple[NewLine, KeptDetails]:
    salt = SALT if customer == "C-1" else SALT[::-1]
    sealed = {"kind": "customer number", "id": customer, "details_hmac_sha256": salted_digest(details, salt)}
    return line_of(sealed), KeptDetails(position, customer, salt, details)


def tell(record: Record, position: int = 1, details: bytes = DETAILS) -> None:
    line, kept = told(position, details)
    append(record, line, changes=(keep_details([kept]),))


def removal(position: int, customer: str = "C-1") -> NewLine:
    signed = {"person": "OWN", "role": "owner", "at": show_moment(NOW), "meaning": "removed", "shown_sha256": "0" * 64}
    about = {"kind": "details removed", "id": removal_id(customer, position), "customer": customer}
    return line_of(about | {"at": show_moment(NOW), "reason": "asked for", "signatures": [signed]})


def remove(record: Record, position: int) -> None:
    append(record, removal(position), changes=(empty_details("C-1", position, NOW),))


def name_of(record: Record, known_at: int | None = None) -> str:
    with record.reads() as reads:
        return reads.registers(known_at).customers["C-1"].name


def test_told_apart_the_line_and_the_details_are_read_as_one(either: Record):
    """The sealed line holds the number alone; a customer told again stands as told last, and as first before that."""
    tell(either)
    tell(either, 2, canonical_line({"name": "Quillon Ash"}))
    assert (name_of(either), name_of(either, 1)) == ("Quillon Ash", "Quillon Umberfell")
    with either.reads() as reads:
        assert reads.registers(1).customers["C-1"].address == "9 Parsnip Row"
        assert not any(b"Quillon" in line.body + line.envelope for line in reads.lines_between(1, 2))


def test_removed_every_state_reads_so_and_no_earlier_one_is_remembered(either: Record):
    """Also asked as of before the removal, also where that state was read before; and the number takes none again."""
    tell(either)
    append(either, new_entry(1))
    assert name_of(either, 1) == "Quillon Umberfell"
    remove(either, 3)
    said = "details removed on 21 September 2026 at the customer's request"
    assert [name_of(either, at) for at in (None, 2, 1)] == [said] * 3
    with either.reads() as reads:
        assert isinstance(reads.registers().customers["C-1"], NamelessCustomer)
    with pytest.raises(DBAPIError, match="stand as they were told"):
        tell(either, 4)


@pytest.fixture
def guarded(url: str, tmp_path: Path) -> Iterator[Connection]:
    """A connection of somebody else to a record with two customers and a removal that has emptied nothing yet."""
    record = Record.open(url, tmp_path)
    tell(record)
    line, kept = told(2, customer="C-2")
    append(record, line, changes=(keep_details([kept]),))
    append(record, removal(3))
    record.close()
    engine = create_engine(url)
    with engine.connect() as opened:
        yield opened
    engine.dispose()


EMPTIED = "UPDATE customer_details SET salt = NULL, details = NULL, removed_ms = 1"
EMPTYING = f"{EMPTIED}, removed_by = {{}} WHERE customer = '{{}}'"
REFUSED = [
    "UPDATE customer_details SET details = 'other'",
    "UPDATE customer_details SET customer = 'C-9'",
    "DELETE FROM customer_details",
    EMPTYING.format(3, "C-2"),
    EMPTYING.format(1, "C-1"),
    EMPTYING.format("NULL", "C-1"),
    "INSERT INTO customer_details VALUES (3, 'C-1', 'salt', 'details', NULL, NULL)",
    "INSERT INTO customer_details VALUES (1, 'C-1', 'salt', 'details', NULL, NULL)",
    "INSERT INTO customer_details VALUES (9, 'C-1', 'salt', 'details', NULL, NULL)",
]


@pytest.mark.parametrize("statement", REFUSED)
def test_nothing_else_is_done_to_them(guarded: Connection, statement: str):
    """No change, no removal without the line that says so of this customer, no row without its line."""
    with pytest.raises(DBAPIError), guarded.begin():
        guarded.execute(text(statement))


def test_with_its_line_a_row_is_emptied_once(guarded: Connection):
    """Control: the statement that was refused for another customer goes through for this one, and not once more."""
    with guarded.begin():
        guarded.execute(text(EMPTYING.format(3, "C-1")))
    with pytest.raises(DBAPIError, match="stand as they were told"), guarded.begin():
        guarded.execute(text(EMPTYING.format(3, "C-1")))


def odd(file: Path) -> tuple[str, ...]:
    return check_record(url_of(file), file.parent).odd


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE customer_details SET details = replace(details, 'Ash', 'Elm')", f"{ASIDE} are altered"),
        ("UPDATE customer_details SET salt = zeroblob(32)", f"{ASIDE} are altered"),
        ("UPDATE customer_details SET details = NULL", f"{ASIDE} are altered"),
        ("DELETE FROM customer_details", f"{ASIDE} are missing"),
        ("DROP TABLE customer_details", "customer_details is missing"),
        ("UPDATE customer_details SET customer = 'C-2'", "C-2, position 1, stand beside no line"),
        (EMPTYING.format(1, "C-1"), f"{ASIDE} were emptied by no signed line"),
    ],
)
def test_what_was_altered_beside_the_lines_is_named(record: Record, file: Path, statement: str, said: str):
    """check-record names the customer by number and position, whatever was done to the details."""
    tell(record, details=canonical_line({"name": "Quillon Ash"}))
    record.close()
    assert odd(file) == ()
    if statement.startswith("DROP"):
        with closing(sqlite3.connect(file)) as other:
            other.execute(statement)
    else:
        tamper(file, statement)
    assert any(said in each for each in odd(file)), odd(file)


def test_a_removal_that_emptied_nothing_is_named(record: Record, file: Path):
    """A signed line without its deed is named; with it everything holds."""
    tell(record)
    append(record, removal(2))
    assert any(f"{ASIDE} still stand, though position 2 removed them" in each for each in odd(file))
    record.write(lambda _: Written(answer=lambda _: None, changes=(empty_details("C-1", 2, NOW),))).result()
    assert odd(file) == ()


def test_altered_details_are_not_shown(record: Record, file: Path):
    """A name put in the place of the one that was told is read by nobody; the words say where to look."""
    tell(record)
    record.close()
    tamper(file, "UPDATE customer_details SET details = replace(details, 'Quillon', 'Another')")
    again = Record.open(url_of(file))
    assert name_of(again) == "details altered: see check-record"
    again.close()


def in_the_file(file: Path) -> bool:
    log = file.with_name(f"{file.name}-wal")
    kept = b"".join(each.read_bytes() for each in (file, log) if each.exists())
    return any(word in kept for word in (b"Umberfell", b"Quillon", b"Parsnip", SALT))


def with_others(file: Path, others: int) -> Record:
    """A record in which as many other customers stand before and after the one."""
    record = Record.open(url_of(file))
    for at in range(1, 2 * others + 2):
        if at == others + 1:
            tell(record, at)
        else:
            line, kept = told(at, canonical_line({"name": f"Ash {at}", "address": f"{at} Elm Row"}), f"C-{at}9")
            append(record, line, changes=(keep_details([kept]),))
    return record


def name_stays(file: Path, others: int = 3, forget: Callable[[Record], object] = Record.forget) -> bool:
    record = with_others(file, others)
    assert in_the_file(file)
    with record.reads() as reads:
        position = reads.last_position() + 1
    remove(record, position)
    forget(record)
    stays = in_the_file(file)
    record.close()
    return stays or in_the_file(file)


@pytest.mark.parametrize("others", [0, 3, 40])
def test_removed_the_bytes_are_gone_from_the_file_and_its_log(file: Path, others: int):
    """Alone or among pages of others, neither the file nor its write-ahead log holds the name, served on or closed."""
    assert not name_stays(file, others)


def test_what_is_not_written_over_stays(file: Path, monkeypatch: pytest.MonkeyPatch):
    """Control: without secure deletion the name stays in the file's free room."""
    monkeypatch.setattr(engines, "FORGETTING", "secure_delete=OFF")
    assert name_stays(file)


def test_what_is_not_moved_stays_in_the_log(file: Path):
    """Control: with nobody emptying the log it still holds the name."""
    assert name_stays(file, forget=lambda record: None)


def test_a_reader_keeps_the_log_for_a_while(record: Record, file: Path, monkeypatch: pytest.MonkeyPatch):
    """While a question of before is open the log is not emptied, which is said; the next turn after it does."""
    monkeypatch.setattr("server.record.book_of_lines._FORGETTING_TURNS", 1)
    tell(record)
    with record.reads(patient=True) as reads:
        reads.registers()
        remove(record, 2)
        assert [record.forget(), record.forgetting] == [False, True]
    append(record, new_entry(1))
    append(record, new_entry(2))
    assert [record.forgetting, in_the_file(file)] == [False, False]
