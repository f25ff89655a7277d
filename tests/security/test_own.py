"""One's own page: a secret the owner chose is changed first; one's own is changed, one's sessions seen and ended."""

from fastapi import FastAPI

from tests.security.caller import KEY, PERSON_OF, PHRASE, PIN, Caller, signed_in

WELDER, OWNER = PERSON_OF["welder"], PERSON_OF["owner"]
GIVEN, CHOSEN = "602214", "583920"


def given_a_pin(app: FastAPI) -> Caller:
    """The tablet with the welder signed in by a PIN the owner has just chosen for them."""
    told = {"person": WELDER, "kind": "pin", "new": GIVEN, "secret": PIN}
    assert signed_in(app, "owner").ask("POST", "/people/secret", data=told).status_code == 303
    tablet = Caller(app, KEY)
    assert tablet.try_in(WELDER, GIVEN, onward="/bench").headers["location"] == "/own"
    return tablet


def change(caller: Caller, present: str, new: str, again: str | None = None, kind: str = "pin") -> tuple[int, str]:
    told = {"kind": kind, "present": present, "new": new, "again": again or new}
    answer = caller.ask("POST", "/own/secret", data=told)
    return answer.status_code, answer.text


def test_a_given_pin_opens_only_its_change(app: FastAPI):
    """Who came in by a PIN the owner chose reaches no screen and no address but the one where it is changed."""
    tablet = given_a_pin(app)
    assert [tablet.ask("GET", path).status_code for path in ("/bench", "/history", "/api/bench/B1")] == [401] * 3
    assert tablet.ask("GET", "/sign-in").headers["location"] == "/own"
    assert "knows it" in tablet.ask("GET", "/own").text
    assert change(tablet, GIVEN, GIVEN)[0] == 409
    assert change(tablet, GIVEN, CHOSEN)[0] == 303
    assert tablet.ask("GET", "/bench").status_code == 200
    assert Caller(app, KEY).try_in(WELDER, CHOSEN, onward="/bench").headers["location"] == "/bench"


def test_a_given_pin_signs_nothing(app: FastAPI):
    """As a second person's proof at a hold point it is refused with what to do, and taken once it is their own."""
    tablet = given_a_pin(app)
    fitter = signed_in(app, "fitter")
    answer = fitter.ask("POST", "/api/prove", json={"person": WELDER, "secret": GIVEN})
    assert (answer.status_code, "choose your own" in answer.json()["detail"]) == (409, True)
    change(tablet, GIVEN, CHOSEN)
    assert fitter.ask("POST", "/api/prove", json={"person": WELDER, "secret": CHOSEN}).status_code == 200


def test_ones_own_pin_is_changed_by_the_present_one(app: FastAPI):
    """Without the present PIN, or with two new ones that differ, nothing changes; with it the old opens no more."""
    welder, elsewhere = signed_in(app, "welder"), signed_in(app, "welder")
    assert "do not fit together" in change(welder, "000001", CHOSEN)[1]
    assert "not the same" in change(welder, PIN, CHOSEN, "583921")[1]
    assert "reads as a day" in change(welder, PIN, "241203")[1]
    assert change(welder, PIN, CHOSEN)[0] == 303
    assert welder.ask("GET", "/bench").status_code == 200
    assert elsewhere.ask("GET", "/bench").status_code == 401
    assert Caller(app, KEY).try_in(WELDER, PIN).status_code == 401


def test_a_pass_phrase_is_changed_from_anywhere(app: FastAPI):
    """On a device the shop does not know, the present pass phrase is what proves, and a PIN does not."""
    caller = Caller(app)
    caller.try_in(OWNER, PHRASE)
    assert change(caller, PIN, "seven quiet brown hares", kind="password")[0] == 409
    assert change(caller, PHRASE, "seven quiet brown hares", kind="password")[0] == 303
    assert Caller(app).try_in(OWNER, PHRASE).status_code == 401


def test_ones_own_sessions_are_seen_and_ended(app: FastAPI):
    """Both sessions are listed, the other is ended from this one, and somebody else's is not one's own to end."""
    here, other, stranger = signed_in(app, "welder"), signed_in(app, "welder"), signed_in(app, "fitter")
    page = here.ask("GET", "/own").text
    handle = page.split('name="session" value="')[1].split('"')[0]
    assert page.count('name="session"') == 1
    assert stranger.ask("POST", "/own/end", data={"session": handle}).status_code == 409
    assert other.ask("GET", "/bench").status_code == 200
    assert here.ask("POST", "/own/end", data={"session": handle}).status_code == 303
    assert [each.ask("GET", "/bench").status_code for each in (here, other)] == [200, 401]


def test_signing_in_again_ends_the_token_before(app: FastAPI):
    """A browser that signs in again has one session: the token it had before opens nothing any more."""
    caller = signed_in(app, "welder")
    before = Caller(app, KEY)
    before.cookies.set("strawline_session", caller.cookies["strawline_session"])
    assert before.ask("GET", "/bench").status_code == 200
    assert caller.try_in(WELDER, PIN).status_code == 303
    assert [each.ask("GET", "/bench").status_code for each in (before, caller)] == [401, 200]
