"""A badge signs its person in on the shop's own devices, is shut when lost, and signs nothing but a look at a seam."""

import re

import pytest
from fastapi import FastAPI

from server.record.book_of_lines import Record
from server.record.keeping_secrets import drop_credential
from server.record.written import Written
from server.work.badge import read_badge
from tests.security.caller import KEY, PERSON_OF, PIN, Caller, signed_in

WELDER, FITTER = PERSON_OF["welder"], PERSON_OF["fitter"]


def printed(app: FastAPI, person: str = WELDER, secret: str = PIN) -> str:
    page = signed_in(app, "owner").ask("POST", "/people/badge", data={"person": person, "secret": secret}).text
    found = re.search(r"BADGE(-[0-9A-Z]{5}){5}", page)
    return found[0] if found else page


def scan(caller: Caller, code: str) -> tuple[int, str]:
    answer = caller.ask("POST", "/sign-in/badge", data={"badge": code})
    return answer.status_code, answer.text


def test_a_badge_signs_in_on_a_tablet(app: FastAPI):
    """One scan on an enrolled tablet opens a session of whose badge it is, typed in small letters as well."""
    code, tablet = printed(app), Caller(app, KEY)
    assert scan(tablet, code)[0] == 303
    assert f"welder {WELDER}" in tablet.ask("GET", "/own").text
    assert scan(Caller(app, KEY), code.lower().replace("-", " "))[0] == 303


def test_a_badge_opens_nothing_elsewhere(app: FastAPI):
    """On a device the shop does not know, the right badge is refused in the same words as a wrong one."""
    right, wrong = (scan(Caller(app), code) for code in (printed(app), "BADGE" + "-22222" * 5))
    assert right == wrong
    assert (right[0], "enrolled devices only" in right[1]) == (401, True)


def test_who_has_only_a_badge_is_no_name_to_tap(app: FastAPI, record: Record):
    """Somebody with neither PIN nor pass phrase is not among the names, since no secret of theirs could fit."""
    drop = Written(lambda _: None, changes=(drop_credential(WELDER, "pin"),))
    printed(app)
    record.write(lambda _: drop).result()
    shown = Caller(app, KEY).ask("GET", "/sign-in").text
    assert f'value="{WELDER}"' not in shown
    assert f'value="{FITTER}"' in shown


def test_a_badge_printed_anew_replaces_the_old(app: FastAPI):
    """The older code opens nothing any more and who came in by it is out; the new one opens."""
    older, tablet = printed(app), Caller(app, KEY)
    scan(tablet, older)
    newer = printed(app)
    assert tablet.ask("GET", "/bench").status_code == 401
    assert [scan(Caller(app, KEY), code)[0] for code in (older, newer)] == [401, 303]


def test_a_lost_badge_is_taken_away(app: FastAPI):
    """Taken away by the owner it opens nothing, and the PIN still does; where there is none, that is said."""
    code, owner = printed(app), signed_in(app, "owner")
    assert owner.ask("POST", "/people/badge/take", data={"person": WELDER}).status_code == 303
    assert scan(Caller(app, KEY), code)[0] == 401
    assert Caller(app, KEY).try_in(WELDER, PIN).status_code == 303
    assert "has no badge" in owner.ask("POST", "/people/badge/take", data={"person": WELDER}).text


def test_only_its_hash_is_kept(app: FastAPI, record: Record):
    """Neither the secrets kept nor any line of the record hold the code, and the page shows it once."""
    code = printed(app)
    told = str(read_badge(code))
    with record.reads() as reads:
        kept = reads.credentials(WELDER)["badge"].secret_hash
        lines = b"".join(line.body for line in reads.lines_between(1, 99))
    assert told not in kept
    assert not any(each.encode() in lines for each in (code, told))
    assert code not in signed_in(app, "owner").ask("GET", "/people").text


def test_a_badge_stands_for_the_pin_at_a_hold_point(app: FastAPI):
    """The second person's own badge proves them on this tablet; another's, or one beside a wrong name, does not."""
    code, tablet = printed(app), signed_in(app, "fitter")

    def prove(person: str) -> int:
        return tablet.ask("POST", "/api/prove", json={"person": person, "secret": code}).status_code

    assert (prove(WELDER), prove(PERSON_OF["quality lead"])) == (200, 409)


def test_a_badge_sets_nobodys_secret(app: FastAPI):
    """Where the owner has to prove themselves again, the badge does not: what is signed asks for PIN or pass phrase."""
    code, owner = printed(app, PERSON_OF["owner"]), signed_in(app, "owner")
    told = {"person": WELDER, "kind": "pin", "new": "602214", "secret": code}
    assert owner.ask("POST", "/people/secret", data=told).status_code == 409
    assert "do not fit together" in printed(app, secret="000001")


def test_wrong_tries_are_not_forgotten_by_a_badge(app: FastAPI):
    """A PIN that waits goes on waiting although its person came in by badge."""
    code, tablet = printed(app), Caller(app, KEY)
    for _ in range(5):
        tablet.try_in(WELDER, "999888")
    assert scan(tablet, code)[0] == 303
    assert "Wait" in tablet.try_in(WELDER, PIN).text


@pytest.mark.parametrize("text", ["", "BADGE", "BADGE-12345", "SL-7", "BADGE" + "-UUUUU" * 5, "BADGE" + "-22222" * 6])
def test_what_is_no_badge(text: str):
    """A short code, a long one, a sign that is never used and a sleeve's label are no badge."""
    assert read_badge(text) is None


def test_misread_signs_are_read_as_meant():
    """I, L and O, which the codes never hold, are taken for the figures they look like."""
    assert read_badge("BADGE-0O1IL-22222-33333-44444-55555") == "0011122222333334444455555"
