"""Tablets: enrolled once by an invitation of ten minutes, heard of, and revoked by name."""

import json
import re

import pytest
from fastapi import FastAPI

from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.work.enrolling import Invitations, NotInvited
from server.work.telling import told_line
from tests.api.asking import delivery
from tests.security.caller import KEY, PERSON_OF, PIN, TABLET, Caller, signed_in
from tests.security.device_key import DeviceKey

WELDER = PERSON_OF["welder"]


def invitation(app: FastAPI, device: str = "TAB-2", secret: str = PIN) -> str:
    told = {"device": device, "secret": secret, "title": "second bench"}
    page = signed_in(app, "owner").ask("POST", "/tablets/invite", data=told).text
    found = re.search(r'/enrol#([\w-]+)"', page)
    return found[1] if found else page


def revoke(app: FastAPI, device: str, entries: str) -> tuple[int, str]:
    told = {"device": device, "secret": PIN, "entries": entries}
    answer = signed_in(app, "owner").ask("POST", "/tablets/revoke", data=told)
    return answer.status_code, answer.text


def test_a_tablet_is_enrolled_once(app: FastAPI):
    """The first to accept is the tablet and PINs open on it; the same invitation gives no second key."""
    token, tablet, late = invitation(app), Caller(app), Caller(app)
    assert "TAB-2" in tablet.show(token).text
    assert tablet.enrol(token, DeviceKey()).status_code == 303
    assert tablet.try_in(WELDER, PIN).status_code == 303
    assert late.enrol(token, DeviceKey()).status_code == 409
    assert "used already" in late.show(token).text
    assert not late.cookies


def test_the_invitation_is_drawn_by_the_house(app: FastAPI):
    """The code is a picture in the page itself, fetched from nowhere."""
    told = {"device": "TAB-2", "secret": PIN}
    assert 'src="data:image/svg+xml' in signed_in(app, "owner").ask("POST", "/tablets/invite", data=told).text


def test_ten_minutes_and_no_longer():
    """An invitation is good for ten minutes, and a newer one for the same tablet makes it void."""
    invitations = Invitations()
    token = invitations.give("TAB-2", "second bench", None, 0)
    assert invitations.look(token, 599_999).device == "TAB-2"
    with pytest.raises(NotInvited):
        invitations.use(token, 600_000)
    older = invitations.give("TAB-2", "second bench", None, 0)
    invitations.give("TAB-2", "second bench", None, 1)
    with pytest.raises(NotInvited):
        invitations.use(older, 2)


def test_an_invitation_asks_for_the_owner_again(app: FastAPI):
    """Without the owner's own PIN no code is made, and what was typed stands there again."""
    refused = invitation(app, secret="000001")
    assert "do not fit together" in refused
    assert 'value="TAB-2"' in refused
    assert 'value="second bench"' in refused


@pytest.mark.parametrize(("name", "place"), [("TAB-7", " at bench B7."), ("TAB-8", ".")])
def test_a_tablet_stands_where_the_register_has_it(app: FastAPI, record: Record, name: str, place: str):
    """Invited without a bench, a tablet the register knows is at that bench, and one it does not know at none."""
    lines = {"torch_line": "T7", "purge_line": "P7"}
    bench = {"kind": "bench", "id": "B7", "title": "a booth", "devices": ["TAB-7"]} | lines
    record.write(lambda _: Written(lambda _: None, lines=[told_line(bench, now_ms())])).result()
    shown = Caller(app).show(invitation(app, name)).text
    assert f"<strong>{name}</strong> (second bench){place}" in shown


@pytest.mark.parametrize("name", [TABLET, "elsewhere", "house", "two words", "", "x" * 41])
def test_names_that_cannot_be(app: FastAPI, name: str):
    """A name in use, one the house itself goes by, and one that is no name are refused."""
    told = {"device": name, "secret": PIN}
    assert signed_in(app, "owner").ask("POST", "/tablets/invite", data=told).status_code in (409, 422)


def test_revoking_asks_for_what_waits_first(app: FastAPI):
    """Unless its entries are said to be safe or given up, a tablet is not revoked."""
    status, text = revoke(app, TABLET, "")
    assert (status, "Save its rescue file" in text) == (409, True)
    assert Caller(app, KEY).try_in(WELDER, PIN).status_code == 303


def test_a_revoked_tablet_is_unknown(app: FastAPI):
    """Once revoked, the sessions on it have ended and no PIN is taken on it; its name may be enrolled anew."""
    tablet = signed_in(app, "welder")
    assert revoke(app, TABLET, "rescued")[0] == 303
    assert tablet.ask("GET", "/bench").status_code == 401
    assert "enrolled devices only" in tablet.try_in(WELDER, PIN).text


def test_a_revoked_name_is_enrolled_anew(app: FastAPI):
    """A tablet that lost its key gets another under its old name, once the old key is revoked; the old stays shut."""
    # Told from the server's own screen, since revoking ends the sessions on the tablet.
    owner = Caller(app, machine="127.0.0.1")
    owner.try_in(PERSON_OF["owner"], PIN, device="desk")
    owner.ask("POST", "/tablets/revoke", data={"device": TABLET, "secret": PIN, "entries": "given up"})
    page = owner.ask("POST", "/tablets/invite", data={"device": TABLET, "secret": PIN}).text
    found = re.search(r'/enrol#([\w-]+)"', page)
    assert found
    tablet = Caller(app)
    assert tablet.enrol(found[1], DeviceKey()).status_code == 303
    assert tablet.try_in(WELDER, PIN).status_code == 303
    assert Caller(app, KEY).try_in(WELDER, PIN).status_code == 401


def test_nobody_revokes_what_is_not_there(app: FastAPI):
    """A name nobody enrolled is refused in words."""
    assert "no tablet" in revoke(app, "TAB-9", "rescued")[1]


def test_the_list_says_when_each_was_heard(app: FastAPI):
    """A tablet that never sent says so; once it has, the list says when."""
    owner = signed_in(app, "owner")
    assert "nothing yet" in owner.ask("GET", "/tablets").text
    told = delivery(1)
    line = json.loads(told["line"]) | {"device": TABLET, "id": f"{TABLET}:b1:1"}
    sent = {"id": f"{TABLET}:b1:1", "device": TABLET, "line": json.dumps(line, sort_keys=True, separators=(",", ":"))}
    assert Caller(app, KEY).ask("POST", "/api/deliveries", json={"deliveries": [sent]}).status_code == 200
    assert "nothing yet" not in owner.ask("GET", "/tablets").text
