"""A tablet is known by a key that never leaves it: its cookie alone, in another browser, opens nothing."""

import json

import pytest
from fastapi import FastAPI

from server.record.book_of_lines import now_ms
from server.work.device_proof import DeviceProofs, NotProved
from tests.api.asking import delivery
from tests.security.caller import PERSON_OF, PIN, Caller
from tests.security.device_key import DeviceKey

WELDER = PERSON_OF["welder"]
SENT = json.dumps({"deliveries": [delivery(1)]}).encode()


def enrolled(app: FastAPI, device: str = "TAB-2") -> tuple[Caller, DeviceKey]:
    tablet, key = Caller(app), DeviceKey()
    token = app.state.invitations.give(device, device, None, now_ms())
    assert tablet.enrol(token, key).status_code == 303
    return tablet, key


def another_browser(app: FastAPI, tablet: Caller, *names: str) -> Caller:
    """A browser that was given some of the tablet's cookies."""
    other = Caller(app)
    for name in names or ("strawline_key",):
        other.cookies.set(name, tablet.cookies[name])
    return other


def send(caller: Caller) -> int:
    return caller.ask("POST", "/api/deliveries", content=SENT).status_code


def test_the_cookie_alone_opens_nothing(app: FastAPI):
    """With the tablet's cookie but not its key no PIN is checked and nothing is taken; with its proof both are."""
    tablet, _ = enrolled(app)
    other = another_browser(app, tablet)
    assert (other.try_in(WELDER, PIN).status_code, send(other)) == (401, 401)
    assert "not its key" in other.ask("GET", "/sign-in").text
    assert (send(tablet), tablet.try_in(WELDER, PIN).status_code) == (200, 303)


def test_another_key_proves_nothing(app: FastAPI):
    """A number signed with another key, or what another device proved, makes the cookie no better."""
    tablet, _ = enrolled(app)
    third, key = enrolled(app, "TAB-3")
    other = another_browser(app, tablet)
    assert other.prove(DeviceKey()).status_code == other.prove(key).status_code == 403
    other.cookies.set("strawline_proof", third.cookies["strawline_proof"])
    assert send(other) == 401


def test_a_signature_is_good_once(app: FastAPI):
    """What the tablet sent to prove itself is refused when it is sent again, by whomever."""
    tablet, key = enrolled(app)
    number = tablet.ask("POST", "/device/number").json()["number"]
    told = {"number": number, "signature": key.sign(number)}
    assert tablet.ask("POST", "/device/proof", json=told).status_code == 204
    assert another_browser(app, tablet).ask("POST", "/device/proof", json=told).status_code == 403


@pytest.mark.parametrize("signature", ["", "AAAA", "not base64 at all", "A" * 88])
def test_what_is_no_signature(app: FastAPI, signature: str):
    """Nothing, too little, no base64 and a row of zeros are refused in the same words."""
    tablet, _ = enrolled(app)
    number = tablet.ask("POST", "/device/number").json()["number"]
    answer = tablet.ask("POST", "/device/proof", json={"number": number, "signature": signature})
    assert (answer.status_code, "not its key" in answer.json()["detail"]) == (403, True)


def test_a_proof_lasts_half_an_hour():
    """A number is good for two minutes, what was proved for thirty, and for that device only."""
    proofs, key = DeviceProofs(), DeviceKey()
    number = proofs.give_number(0)
    shown = proofs.prove("TAB-2", key.public, number, key.sign(number), 119_999)
    assert proofs.holds(shown, "TAB-2", 119_999 + 1_799_999)
    assert not proofs.holds(shown, "TAB-2", 119_999 + 1_800_000)
    assert not proofs.holds(shown, "TAB-3", 120_000)
    late = proofs.give_number(0)
    with pytest.raises(NotProved):
        proofs.prove("TAB-2", key.public, late, key.sign(late), 120_000)


def test_a_signature_over_other_words_is_none():
    """What a key signed for anything else is no proof here."""
    proofs, key = DeviceProofs(), DeviceKey()
    number = proofs.give_number(0)
    with pytest.raises(NotProved):
        proofs.prove("TAB-2", key.public, number, key.sign(number, ""), 1)


@pytest.mark.parametrize("public", ["", "AAAA", "no key"])
def test_nobody_enrols_without_a_key(app: FastAPI, public: str):
    """A browser that made none is told what to do, and the invitation is still good for one that does."""
    token = app.state.invitations.give("TAB-2", "TAB-2", None, now_ms())
    told = {"invitation": token, "public_key": public}
    answer = Caller(app).ask("POST", "/enrol", data=told)
    assert (answer.status_code, "made no key" in answer.text) == (409, True)
    assert Caller(app).enrol(token, DeviceKey()).status_code == 303


def test_a_revoked_tablet_proves_nothing(app: FastAPI):
    """Once revoked, the right key is no proof any more, and what was proved before is worth nothing."""
    tablet, key = enrolled(app)
    owner = Caller(app, machine="127.0.0.1")
    owner.try_in(PERSON_OF["owner"], PIN)
    owner.ask("POST", "/tablets/revoke", data={"device": "TAB-2", "secret": PIN, "entries": "given up"})
    assert send(tablet) == 401
    assert tablet.prove(key).status_code == 401
