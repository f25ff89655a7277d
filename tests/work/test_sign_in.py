"""Signing in: the right secret opens a session, wrong ones wait longer and longer, and a session ends."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.keeping_secrets import keep_credential
from server.record.written import Written
from server.work.proving import hash_secret, outdated
from server.work.refusal import NotYours
from server.work.set_pin import set_pin
from server.work.sign_in import Admitted, Asked, WrongSecret, check_secret, forget_tries, sign_in
from server.work.telling import told_line
from server.work.visit import visit_of

NOW = 1_700_000_000_000
HOUR = 3_600_000


@pytest.fixture
def record(tmp_path: Path) -> Iterator[Record]:
    made = Record.open(f"sqlite:///{tmp_path / 'record.sqlite3'}")
    person = {"kind": "person", "id": "P1", "name": "Ada Vane", "roles": ["welder", "fitter"]}
    secret = Credential("P1", "pin", hash_secret("481516"), NOW)
    told = Written(answer=lambda _: None, lines=(told_line(person, NOW),), changes=(keep_credential(secret),))
    made.write(lambda _: told).result()
    yield made
    made.close()


def come_in(record: Record, pin: str, now: int = NOW, device: str = "tablet one", role: str | None = None) -> Admitted:
    return sign_in(record, Asked("P1", pin, device, role), now, 12)


def test_the_right_pin_opens_a_session(record: Record):
    """A person with the right PIN is admitted in their first role, and the record holds only the token's hash."""
    admitted = come_in(record, "481516")

    with record.reads() as reads:
        visit = visit_of(reads, admitted.token, NOW + 1000, idle_minutes=30)
    assert visit is not None
    assert (visit.person.name, visit.session.role) == ("Ada Vane", "welder")
    assert admitted.token not in str(visit.session)


@pytest.mark.parametrize(("later_ms", "there"), [(29 * 60_000, True), (30 * 60_000, False), (12 * HOUR, False)])
def test_a_session_idles_out(record: Record, later_ms: int, there: bool):
    """A session not used for half an hour opens nothing any more."""
    token = come_in(record, "481516").token

    with record.reads() as reads:
        assert (visit_of(reads, token, NOW + later_ms, idle_minutes=30) is not None) is there


def test_five_wrong_tries_make_the_next_wait(record: Record):
    """After the fifth wrong try even the right PIN waits half a minute, on any device; then it opens."""
    for _ in range(5):
        with pytest.raises(WrongSecret, match="do not fit"):
            come_in(record, "999888")

    with pytest.raises(WrongSecret, match="Wait 30 seconds"):
        come_in(record, "481516", device="another tablet")
    assert come_in(record, "481516", NOW + 30_000).session.person == "P1"


def test_ten_wrong_tries_end_the_pin(record: Record):
    """Ten wrong tries, however spread over devices and time, turn the PIN off; at most ten guesses are checked."""
    for number in range(10):
        with pytest.raises(WrongSecret):
            come_in(record, "999888", NOW + number * HOUR, device=f"tablet {number % 3}")

    with pytest.raises(WrongSecret, match="is off"):
        come_in(record, "481516", NOW + 100 * HOUR)


def test_unknown_people_are_told_the_same(record: Record):
    """An unknown name is answered in the same words as a wrong PIN, so nobody learns who works here."""
    with record.reads() as reads:
        with pytest.raises(WrongSecret) as unknown:
            check_secret(reads, Asked("P9", "481516", "tablet one"), record.pepper, NOW)
        with pytest.raises(WrongSecret) as wrong:
            check_secret(reads, Asked("P1", "000001", "tablet one"), record.pepper, NOW)

    assert str(unknown.value) == str(wrong.value)


def test_nobody_acts_in_a_role_they_do_not_hold(record: Record):
    """The role a person acts in is one they hold."""
    with pytest.raises(NotYours, match="does not hold the role 'owner'"):
        come_in(record, "481516", role="owner")


def test_guesses_at_once_do_not_get_past_the_waits(record: Record):
    """Forty guesses sent at once are answered by at most five checks, the rest by a wait."""
    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(lambda _: told_no(record), range(40)))

    assert sum("do not fit" in answer for answer in answers) <= 5


def told_no(record: Record) -> str:
    with pytest.raises(WrongSecret) as refusal:
        come_in(record, "999888")
    return str(refusal.value)


def test_every_try_is_logged_on_one_line(record: Record, caplog: pytest.LogCaptureFixture):
    """Who came in and who was turned away is in the log, without what was typed as a secret and on one line each."""
    caplog.set_level("INFO")
    come_in(record, "481516")
    with pytest.raises(WrongSecret):
        sign_in(record, Asked("P1\r\nsigned in 'P9'", "703981", "tablet one"), NOW, 12)
    told = [each.getMessage() for each in caplog.records if each.name == "strawline.door"]
    assert told[0] == "signed in 'P1' on 'tablet one'"
    assert told[1].startswith("turned away")
    assert "\n" not in told[1]
    assert "703981" not in caplog.text


def test_a_lost_pepper_is_said_in_the_log(record: Record, caplog: pytest.LogCaptureFixture):
    """PINs kept with a pepper that is not there any more fit nothing, and the log says what to put back."""
    set_pin(record, "P1", "583920", NOW)
    record.pepper = b"another"
    with pytest.raises(WrongSecret, match="do not fit"):
        come_in(record, "583920")
    assert "another record.pepper" in caplog.text


def keep(record: Record, secret_hash: str) -> None:
    change = keep_credential(Credential("P1", "pin", secret_hash, NOW))
    record.write(lambda _: Written(answer=lambda _: None, changes=(change,))).result()


def kept(record: Record) -> str:
    with record.reads() as reads:
        return reads.credentials("P1")["pin"].secret_hash


def test_an_old_hash_is_kept_anew_when_its_person_comes_in(record: Record):
    """A PIN kept before there was a pepper is peppered by a right try and by no wrong one, and opens as before."""
    told_no(record)
    assert kept(record).startswith("$argon2id")
    come_in(record, "481516", NOW + 1)
    assert not outdated(kept(record), record.pepper)
    assert come_in(record, "481516", NOW + 2).session.person == "P1"


def test_a_secret_changed_meanwhile_is_not_brought_back(record: Record):
    """Between the look and the keeping the owner set another PIN: that one stays."""
    asked = Asked("P1", "481516", "tablet one")
    with record.reads() as reads:
        proven = check_secret(reads, asked, record.pepper, NOW)
    assert proven.renewed
    keep(record, hash_secret("730219", record.pepper))
    record.write(lambda reads: forget_tries(reads, asked, proven)).result()
    assert come_in(record, "730219", NOW + 1).session.person == "P1"
