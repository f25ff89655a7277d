"""A device the shop does not know: it sends nothing in, it reads nothing, and no PIN is ever checked on it."""

import json

import pytest
from fastapi import FastAPI

from server.record.book_of_lines import Record
from server.record.keeping_devices import revoke_device
from server.record.written import Written
from server.work import sign_in
from tests.api.asking import delivery
from tests.security.caller import KEY, ON_THE_SERVER, PERSON_OF, PHRASE, PIN, TABLET, Caller, signed_in

OWNER, WELDER = PERSON_OF["owner"], PERSON_OF["welder"]
SENT = json.dumps({"deliveries": [delivery(1)]}).encode()


def send(caller: Caller) -> int:
    return caller.ask("POST", "/api/deliveries", content=SENT).status_code


def test_a_stranger_sends_nothing_in(app: FastAPI, record: Record):
    """An unknown device is answered 401 with what to do, nothing is kept, and no receipt lets its entry go."""
    with record.reads() as reads:
        before = len(reads.lines_between(1, 999))
    answer = Caller(app).ask("POST", "/api/deliveries", content=SENT)
    assert (answer.status_code, answer.headers["content-type"]) == (401, "application/problem+json")
    assert "keep the entries" in answer.json()["detail"]
    assert "receipts" not in answer.json()
    with record.reads() as reads:
        assert len(reads.lines_between(1, 999)) == before


@pytest.mark.parametrize(("path", "known"), [("/api/lines/TAB-1:b1:1", 404), ("/api/checkpoints/latest", 200)])
def test_a_stranger_reads_nothing(app: FastAPI, path: str, known: int):
    """Lines and checkpoints are told to the shop's own devices and to whoever is signed in, and to nobody else."""
    assert Caller(app).ask("GET", path).status_code == 401
    assert Caller(app, "some-other-key").ask("GET", path).status_code == 401
    assert Caller(app, KEY).ask("GET", path).status_code == known
    assert signed_in(app, "office").ask("GET", path).status_code == known


def test_the_key_or_a_person_opens_it(app: FastAPI):
    """The enrolled tablet sends with nobody signed in, and somebody signed in by pass phrase from any device."""
    assert send(Caller(app, KEY)) == 200
    elsewhere = Caller(app)
    assert elsewhere.try_in(OWNER, PHRASE).status_code == 303
    assert send(elsewhere) == 200


def test_a_revoked_key_opens_nothing(app: FastAPI, record: Record):
    """Once revoked, a tablet is unknown: it sends nothing, and its PINs are not checked."""
    record.write(lambda _: Written(lambda _: None, changes=(revoke_device(TABLET, 9),))).result()
    tablet = Caller(app, KEY)
    assert send(tablet) == 401
    assert "enrolled devices only" in tablet.try_in(WELDER, PIN).text


def test_the_server_itself_is_known(app: FastAPI):
    """On the machine itself a PIN opens; the same request under another name, or passed on for another, is unknown."""
    assert Caller(app, machine=ON_THE_SERVER).try_in(WELDER, PIN).status_code == 303
    renamed = Caller(app, machine=ON_THE_SERVER)
    renamed.address = "http://shop.example"
    assert renamed.try_in(WELDER, PIN).status_code == 401
    passed_on = Caller(app, machine=ON_THE_SERVER)
    assert passed_on.ask("GET", "/api/checkpoints/latest", headers={"x-forwarded-for": "192.0.2.9"}).status_code == 401


@pytest.mark.parametrize("device", ["desk", TABLET, "elsewhere"])
def test_a_stranger_cannot_name_itself_a_tablet(app: FastAPI, device: str):
    """Whatever device a stranger claims to be, the PIN is not checked and the session is not opened."""
    caller = Caller(app)
    assert caller.try_in(WELDER, PIN, device=device).status_code == 401
    assert not any("session" in name for name in caller.cookies)


def test_strangers_learn_only_who_has_a_phrase(app: FastAPI):
    """The page a stranger sees names nobody who signs in by PIN only."""
    shown = Caller(app).ask("GET", "/sign-in").text
    assert f'value="{OWNER}"' in shown
    assert f'value="{WELDER}"' not in shown
    assert f'value="{WELDER}"' in Caller(app, KEY).ask("GET", "/sign-in").text


def test_ten_guesses_and_none_from_a_stranger(app: FastAPI, monkeypatch: pytest.MonkeyPatch):
    """Of many guesses at a PIN, over devices and hours, ten are checked from the tablet and none from elsewhere."""
    checked = []
    clock = [1_700_000_000_000]
    monkeypatch.setattr(sign_in, "proves", lambda secret, *_: checked.append(secret))
    monkeypatch.setattr("server.pages.sign_in.route.now_ms", lambda: clock[0])
    for number in range(60):
        clock[0] += 3_600_000
        Caller(app).try_in(WELDER, f"{number:06}", device=TABLET)
    assert not checked
    for number in range(60):
        clock[0] += 3_600_000
        Caller(app, KEY).try_in(WELDER, f"{number:06}", device=f"tablet {number % 7}")
    assert len(checked) == 10


def test_strangers_lock_nobody_out(app: FastAPI):
    """Wrong pass phrases given elsewhere wait elsewhere, and the person's PIN still opens on the tablet."""
    stranger = Caller(app)
    for _ in range(6):
        stranger.try_in(OWNER, "not the right phrase at all")
    assert "Wait" in stranger.try_in(OWNER, PHRASE).text
    assert Caller(app, KEY).try_in(OWNER, PIN).status_code == 303
