"""The owner's page of people: sets secrets, opens what ten wrong tries closed, ends sessions."""

from fastapi import FastAPI

from tests.security.caller import KEY, PERSON_OF, PHRASE, PIN, Caller, signed_in

WELDER = PERSON_OF["welder"]


def give(owner: Caller, new: str, kind: str = "pin", secret: str = PIN, person: str = WELDER) -> tuple[int, str]:
    answer = owner.ask("POST", "/people/secret", data={"person": person, "kind": kind, "new": new, "secret": secret})
    return answer.status_code, answer.text


def test_ten_wrong_tries_are_opened_by_a_new_pin(app: FastAPI, monkeypatch):
    """A PIN that is off is shown as off; a new one opens at once, and the old one no more."""
    clock = [1_900_000_000_000]
    monkeypatch.setattr("server.pages.sign_in.route.now_ms", lambda: clock[0])
    tablet = Caller(app, KEY)
    for _ in range(10):
        clock[0] += 3_600_000
        tablet.try_in(WELDER, "999888")
    assert tablet.try_in(WELDER, PIN).status_code == 401
    owner = signed_in(app, "owner")
    monkeypatch.setattr("server.pages.people.route.now_ms", lambda: clock[0])
    monkeypatch.setattr("server.pages.frame.doorkeeper.now_ms", lambda: clock[0])
    assert "off after ten" in owner.ask("GET", "/people").text
    assert give(owner, "602214")[0] == 303
    assert "off after ten" not in owner.ask("GET", "/people").text
    assert tablet.try_in(WELDER, PIN).status_code == 401
    assert tablet.try_in(WELDER, "602214").status_code == 303


def test_a_new_pin_signs_the_old_one_out(app: FastAPI):
    """Whoever came in by the old PIN is out once a new one is set."""
    welder, owner = signed_in(app, "welder"), signed_in(app, "owner")
    assert welder.ask("GET", "/bench").status_code == 200
    assert give(owner, "602214")[0] == 303
    assert welder.ask("GET", "/bench").status_code == 401


def test_the_owner_proves_themselves_again(app: FastAPI):
    """A session left open sets nobody's PIN: without the owner's own secret nothing changes."""
    owner = signed_in(app, "owner")
    status, text = give(owner, "602214", secret="000001")
    assert status == 409
    assert "your own PIN or pass phrase do not fit together" in text
    assert Caller(app, KEY).try_in(WELDER, PIN).status_code == 303


def test_weak_secrets_are_refused_in_words(app: FastAPI):
    """A worn PIN, a PIN of letters and a short pass phrase are refused with what would do."""
    owner = signed_in(app, "owner")
    assert "choose another" in give(owner, "123456")[1]
    assert "has 6 characters, not all of them digits" in give(owner, "abcdef")[1]
    refused = give(owner, "too short", kind="password")[1]
    assert "at least 12 characters" in refused
    assert '<option value="password" selected>' in refused


def test_a_pass_phrase_opens_anywhere(app: FastAPI):
    """Somebody given a pass phrase signs in with it on a device the shop does not know."""
    assert give(signed_in(app, "owner"), "seven quiet brown hares", kind="password")[0] == 303
    assert Caller(app).try_in(WELDER, "seven quiet brown hares").status_code == 303


def test_the_owner_ends_sessions(app: FastAPI):
    """Signed out by the owner, a person's session opens nothing, and the others' stay."""
    welder, fitter, owner = signed_in(app, "welder"), signed_in(app, "fitter"), signed_in(app, "owner")
    owner.ask("POST", "/people/sign-out", data={"person": WELDER})
    assert welder.ask("GET", "/bench").status_code == 401
    assert fitter.ask("GET", "/bench").status_code == 200


def test_an_old_token_opens_nothing(app: FastAPI):
    """A token kept from before the hand-over is worth nothing after it, and each sign-in gives another."""
    caller = signed_in(app, "owner")
    kept = caller.cookies["strawline_session"]
    caller.ask("POST", "/hand-over")
    replay = Caller(app)
    replay.cookies.set("strawline_session", kept)
    assert replay.ask("GET", "/desk").status_code == 401
    assert replay.try_in(PERSON_OF["owner"], PHRASE).status_code == 303
    assert {each.value for each in replay.cookies.jar} != {kept}
