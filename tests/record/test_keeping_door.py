"""What the door keeps can be set, changed and forgotten, and is read back as it was set."""

from server.record.book_of_lines import Record
from server.record.door_facts import Credential, Device, FailedTry, Passkey, Session
from server.record.keeping_devices import enrol_device, revoke_device
from server.record.keeping_passkeys import add_passkey, drop_passkey, used_passkey
from server.record.keeping_secrets import drop_credential, forget_failed_tries, keep_credential, keep_failed_try
from server.record.keeping_sessions import end_session, end_sessions, open_session, seen_session
from tests.record.fixtures import append


def session(token: str, person: str = "P1", device: str = "TAB-1", ends_ms: int = 1000) -> Session:
    return Session(token, person, "welder", device, 0, 0, ends_ms)


def test_a_secret_is_set_in_place_of_the_one_before(either: Record):
    """A person has one secret of each kind, the one set last."""
    pins = [Credential("P1", "pin", "first", 1), Credential("P1", "pin", "second", 2)]
    password = Credential("P1", "password", "third", 3)
    append(either, changes=tuple(map(keep_credential, (*pins, password))))
    with either.reads() as reads:
        assert reads.credentials("P1") == {"pin": pins[1], "password": password}
        assert reads.credentials("P2") == {}
        assert reads.people_with_credentials() == {"P1"}


def test_a_secret_is_found_by_its_hash_and_taken_away(either: Record):
    """A badge is found by its own hash and kind only; taken away it is gone, and the PIN beside it stays."""
    badge, pin = Credential("P1", "badge", "of a badge", 1), Credential("P1", "pin", "of a pin", 2, given=True)
    append(either, changes=(keep_credential(badge), keep_credential(pin)))
    with either.reads() as reads:
        assert reads.holder_of("badge", "of a badge") == badge
        assert reads.holder_of("badge", "of a pin") is None
    append(either, changes=(drop_credential("P1", "badge"),))
    with either.reads() as reads:
        assert reads.credentials("P1") == {"pin": pin}


def test_passkeys_are_added_used_and_taken_away(either: Record):
    """A person's passkeys are given with the count last told, and only their own are taken away by them."""
    one, other = Passkey("k1", "P1", "the telephone", b"one", 0, 5), Passkey("k2", "P2", "a stick", b"two", 0, 6)
    append(either, changes=(add_passkey(one), add_passkey(other), used_passkey("k1", 3, 9)))
    append(either, changes=(drop_passkey("P1", "k2"),))
    with either.reads() as reads:
        assert reads.passkeys("P1") == [one._replace(sign_count=3, used_ms=9)]
        assert reads.passkeys() == [one._replace(sign_count=3, used_ms=9), other]


def test_a_session_is_opened_seen_and_ended(either: Record):
    """A session is found by its token's hash until it is ended."""
    append(either, changes=(open_session(session("a")), open_session(session("b"))))
    append(either, changes=(seen_session("a", 500),))
    with either.reads() as reads:
        assert reads.session("a") == session("a")._replace(seen_ms=500)
        assert reads.session("b") == session("b")
    append(either, changes=(end_session("a"),))
    with either.reads() as reads:
        assert reads.session("a") is None
        assert reads.session("b") is not None


def test_sessions_are_ended_by_person_by_device_and_by_time(either: Record):
    """Ending a person's, a device's or the outlived sessions leaves the others alone."""
    opened = [session("a"), session("b", person="P2"), session("c", device="TAB-2", person="P3")]
    opened.append(session("d", person="P4", ends_ms=10))
    append(either, changes=tuple(map(open_session, opened)))

    def left() -> set[str]:
        with either.reads() as reads:
            return {name for name in "abcd" if reads.session(name)}

    append(either, changes=(end_sessions(before_ms=10),))
    assert left() == {"a", "b", "c", "d"}
    append(either, changes=(end_sessions(before_ms=11),))
    assert left() == {"a", "b", "c"}
    append(either, changes=(end_sessions(person="P2"),))
    assert left() == {"a", "c"}
    append(either, changes=(end_sessions(device="TAB-2"),))
    assert left() == {"a"}


def test_a_device_is_enrolled_and_revoked(either: Record):
    """A device is found by its key; once revoked it is still known, with when."""
    device = Device("TAB-1", "bench one", "B1", "hash", 5)
    append(either, changes=(enrol_device(device),))
    with either.reads() as reads:
        assert reads.device_by_key("hash") == device
        assert reads.device_by_key("other") is None
    append(either, changes=(revoke_device("TAB-1", 9),))
    with either.reads() as reads:
        assert reads.devices() == [device._replace(revoked_ms=9)]


def test_failed_tries_are_counted_and_forgotten(either: Record):
    """Tries are kept per person and device, and forgotten for one of them alone."""
    one, other = FailedTry("P1", "TAB-1", 1, 10, 0), FailedTry("P1", "TAB-2", 4, 20, 50)
    append(either, changes=(keep_failed_try(one), keep_failed_try(other), keep_failed_try(one._replace(tries=2))))
    with either.reads() as reads:
        assert set(reads.failed_tries("P1")) == {one._replace(tries=2), other}
        assert reads.failed_tries("P1", ["TAB-2"]) == [other]
    append(either, changes=(forget_failed_tries("P1", "TAB-1"),))
    with either.reads() as reads:
        assert reads.failed_tries("P1") == [other]
