"""What is done to the door stands in the record: who, in which role, on which device, to whom; never the secret."""

import re
from pathlib import Path

from fastapi import FastAPI

from server.facts.door import DoorChange
from server.record.book_of_lines import Record
from server.record.record_check import check_record
from tests.security.caller import KEY, PERSON_OF, PIN, TABLET, Caller, signed_in
from tests.security.device_key import DeviceKey

WELDER, OWNER = PERSON_OF["welder"], PERSON_OF["owner"]
PHRASE = "seven quiet brown hares"


def told(record: Record) -> list[DoorChange]:
    with record.reads() as reads:
        return list(reads.registers().door_changes.values())


def set_secret(app: FastAPI, kind: str, new: str) -> None:
    form = {"person": WELDER, "kind": kind, "new": new, "secret": PIN}
    assert signed_in(app, "owner").ask("POST", "/people/secret", data=form).status_code == 303


def test_a_secret_set_is_a_line_without_it(app: FastAPI, record: Record):
    """A PIN and a pass phrase set by the owner are told with hand, role, device and moment; neither stands anywhere."""
    set_secret(app, "pin", "602214")
    set_secret(app, "password", PHRASE)
    assert [(each.act, each.by, each.role, each.on, each.person) for each in told(record)] == [
        ("PIN set", OWNER, "owner", TABLET, WELDER),
        ("pass phrase set", OWNER, "owner", TABLET, WELDER),
    ]
    with record.reads() as reads:
        lines = b"".join(line.body + line.envelope for line in reads.lines_between(1, 99))
    assert not any(each.encode() in lines for each in ("602214", PHRASE))


def test_tablets_and_sessions_are_told(app: FastAPI, record: Record):
    """Enrolled by whose invitation, whose sessions were ended where, and revoked with what became of its entries."""
    owner = signed_in(app, "owner")
    page = owner.ask("POST", "/tablets/invite", data={"device": "TAB-2", "secret": PIN, "title": "second bench"}).text
    found = re.search(r'/enrol#([\w-]+)"', page)
    assert found
    tablet = Caller(app)
    tablet.enrol(found[1], DeviceKey())
    tablet.try_in(WELDER, PIN)
    owner.ask("POST", "/people/sign-out", data={"person": WELDER})
    owner.ask("POST", "/tablets/revoke", data={"device": "TAB-2", "secret": PIN, "entries": "given up"})
    assert [(each.act, each.by, each.tablet or each.person, each.words) for each in told(record)] == [
        ("tablet enrolled", OWNER, "TAB-2", "second bench"),
        ("sessions ended", OWNER, WELDER, "on TAB-2"),
        ("tablet revoked", OWNER, "TAB-2", "unsent entries: given up"),
    ]
    assert all(word in owner.ask("GET", "/tablets").text for word in ("tablet enrolled", "unsent entries: given up"))


def sound_checkpoints(folder: Path) -> int:
    found = check_record(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    # The shop of these proofs has its first secrets and its tablet put in by hand, which is just what is named.
    assert all("no line tells of it" in each for each in found.odd)
    return found.checkpoints


def test_the_lines_are_sealed_like_others(app: FastAPI, record: Record, tmp_path: Path):
    """They stand in the chain of their register, under the next checkpoint, and a recheck finds nothing odd."""
    before = sound_checkpoints(tmp_path)
    set_secret(app, "pin", "602214")
    record.checkpoint().result()
    with record.reads() as reads:
        [position] = [line.position for line in reads.lines_between(1, 99) if line.kind == "door change"]
        assert ("register", "door change") in [tuple(each) for each in reads.subjects_of([position])[position]]
    assert sound_checkpoints(tmp_path) == before + 1


def test_the_page_of_people_shows_them(app: FastAPI):
    """The history names whom and by whose hand, newest first; before anything was done it says what will be."""
    assert "Nothing yet" in signed_in(app, "owner").ask("GET", "/people").text
    set_secret(app, "pin", "602214")
    set_secret(app, "password", PHRASE)
    page = signed_in(app, "owner").ask("GET", "/people").text
    assert f"owner {OWNER}, owner on {TABLET}" in page
    assert page.index("pass phrase set") < page.index("PIN set</td>")


def test_ones_own_change_is_told_as_ones_own(app: FastAPI, record: Record):
    """A person who changes their PIN stands as the hand and as whom, in the role they were signed in."""
    form = {"kind": "pin", "present": PIN, "new": "583920", "again": "583920"}
    Caller(app, KEY)
    signed_in(app, "welder").ask("POST", "/own/secret", data=form)
    assert [(each.act, each.by, each.role, each.person) for each in told(record)] == [
        ("PIN set", WELDER, "welder", WELDER)
    ]


def test_signing_out_nobody_is_no_line(app: FastAPI, record: Record):
    """Where nothing was done, nothing is told."""
    signed_in(app, "owner").ask("POST", "/people/sign-out", data={"person": WELDER})
    assert told(record) == []
