"""The screens beside a claim: what else, containments, holds, joint life, the day of release, a dossier of a joint."""

from html import unescape
from types import SimpleNamespace
from typing import cast
from urllib.parse import quote

import pytest

from server.facts.moment import show_moment
from server.pages.containment.page import NewPage
from server.record.book_of_lines import Record, now_ms
from server.work.what_else import WhatElse
from tests.pages.bench.bench_shop import FRAME, PIN
from tests.pages.bench.fixtures import Visit
from tests.story.log import Tablet, clock_now
from tests.work.small_shop import send, tell

ADDRESSES = (
    "/what-else",
    "/containments",
    "/joint-life",
    "/holds",
    f"/history/{FRAME}/release-day",
    f"/history/{FRAME}/J01/dossier.pdf",
    f"/history/{FRAME}/J01/dossier.json",
    f"/history/{FRAME}/J01/dossier.csv",
)


def seen(visit: Visit, address: str) -> str:
    answer = visit.ask("GET", address)
    assert answer.status_code == 200, answer.text[:400]
    return unescape(answer.text)


@pytest.mark.parametrize("address", ADDRESSES)
def test_only_who_answers_for_frames_may_read(visit: Visit, address: str):
    """Nobody unknown and no welder reads them."""
    assert visit.ask("GET", address).status_code == 401
    visit.sign_in("W01")
    assert visit.ask("GET", address).status_code == 403


def test_before_anything_left_each_page_says_what_will_stand_there(visit: Visit):
    """Empty pages teach: a life begins with a shipment, a hold is placed by an owner, a containment from what else."""
    visit.sign_in("O01")
    assert "No such joint has left the house yet" in seen(visit, "/joint-life")
    assert "No frame is under hold" in seen(visit, "/holds")
    assert "No containment has been opened" in seen(visit, "/containments")
    assert "Ask by something that welds share" in seen(visit, "/what-else")
    assert visit.ask("GET", f"/history/{FRAME}/release-day").status_code == 404


def test_a_hold_is_signed_and_said_on_every_page_of_the_frame(visit: Visit):
    """Without the PIN nothing is placed; with it the history says so, until it is lifted."""
    visit.sign_in("O01")
    form = {"frame": FRAME, "act": "placed", "reason": "counsel asked for it", "secret": "000000"}
    assert visit.ask("POST", "/holds", data=form).status_code != 303
    assert visit.ask("POST", "/holds", data=form | {"secret": PIN}).status_code == 303
    for page in ("", "/J01", "/certificates"):
        assert "counsel asked for it" in seen(visit, f"/history/{FRAME}{page}")
    assert "counsel asked for it" in seen(visit, f"/gate/{FRAME}")
    assert "counsel asked for it" in seen(visit, "/holds")
    told = visit.ask("GET", f"/history/{FRAME}/J01/dossier.json").json()
    assert told["legal_hold"]["reason"] == "counsel asked for it"
    lifted = form | {"act": "lifted", "reason": "counsel agreed", "secret": PIN}
    assert visit.ask("POST", "/holds", data=lifted).status_code == 303
    assert "counsel asked for it" not in seen(visit, f"/history/{FRAME}")


def test_what_cannot_be_asked_is_said(visit: Visit):
    """An unknown kind, an unreadable day and a thing nobody used are named."""
    visit.sign_in("O01")
    assert "is nothing to ask by" in visit.ask("GET", "/what-else?kind=spoon&id=1").text
    turned = visit.ask("GET", "/what-else?kind=welder&id=W01&since=2025-03-02&until=2025-03-01")
    assert "lies before since" in turned.text
    assert "did you mean" in visit.ask("POST", "/holds", data={"frame": FRAME.lower(), "secret": PIN}).text
    assert "is not a day" in visit.ask("GET", "/what-else?kind=welder&id=W01&since=soon").text
    assert "stands under no pass" in unescape(visit.ask("GET", f"/what-else?kind=welder&id={quote('nobody')}").text)
    assert visit.ask("GET", "/joint-life?design=NONE").status_code == 404


def test_a_draft_names_no_person_and_claims_no_check_that_did_not_fail():
    """A letter to a customer calls a welder a welder, and speaks of a check only where one failed."""
    asked = (SimpleNamespace(kind="welder", words="welder W01"), SimpleNamespace(kind="week", words="week 2030-W14"))
    drafts = [
        NewPage(cast(WhatElse, SimpleNamespace(asked=asked, shared=(), failed=failed)), "", {}, ()).notice
        for failed in (0, 1)
    ]
    assert all("share one welder and week 2030-W14" in each and "W01" not in each for each in drafts)
    assert ["a check gave doubt" in each for each in drafts] == [False, True]


def test_a_containment_is_opened_from_what_else_and_carried_on(visit: Visit, bench_record: Record):
    """The page offers the frames and a draft; opened, it says who was not told, and each thing done follows."""
    send(bench_record, Tablet("S").tell("1:00", "pass", frame=FRAME, joint="J01", run="root", torch_line="B1-T"))
    visit.sign_in("O01")
    asked = "kind=line&id=B1-T"
    page = seen(visit, f"/containment?{asked}")
    assert f'value="{FRAME}"' in page
    assert "counsel reads it before anybody sends it" in page
    form = {"asked": asked, "title": "torch line", "because": "its bead", "notice": "please wait", "frames": [FRAME]}
    assert "frames: none" in visit.ask("POST", "/containment", data=form | {"frames": []}).text
    ticked = f'value="{FRAME}" checked'
    untitled = [visit.ask("POST", "/containment", data=form | {"title": "", "frames": each}) for each in ([], [FRAME])]
    assert [each.status_code for each in untitled] == [422, 422]
    assert [ticked in each.text for each in untitled] == [False, True]
    assert all("please wait" in each.text for each in untitled)
    opened = visit.ask("POST", "/containment", data=form)
    assert opened.status_code == 303
    address = opened.headers["location"]
    assert "not told yet" in seen(visit, address)
    step = {"frame": FRAME, "act": "told", "at": "2026-01-06T09:00", "words": "by telephone", "to": "the rider"}
    assert visit.ask("POST", address, data=step | {"at": "soon"}).status_code == 422
    assert visit.ask("POST", address, data=step).status_code == 303
    assert "by telephone" in seen(visit, address)
    assert "1 of 1 frames are not done with" in seen(visit, address)


def test_a_containment_may_hold_thousands_of_frames(visit: Visit, bench_record: Record):
    """A form of more ticks than a parser takes by itself is read to its end; a frame ticked twice counts once."""
    visit.sign_in("O01")
    form = {"asked": "kind=line&id=B1-T", "title": "many frames", "because": "its bead", "notice": "please wait"}
    opened = visit.ask("POST", "/containment", data=form | {"frames": [FRAME] * 1200})
    assert opened.status_code == 303, opened.text
    with bench_record.reads() as reads:
        opened_now = reads.registers().containments[opened.headers["location"].rpartition("/")[2]]
    assert opened_now.frames == (FRAME,)


def test_a_containment_says_which_frame_came_back_and_what_a_claim_told(visit: Visit, bench_record: Record):
    """A frame that came back is not told as with its customer; what was told out of a claim stands in the list."""
    tell(bench_record, kind="shipment", id="S-1", frame=FRAME, customer="C-1", at=show_moment(now_ms() - 600_000))
    visit.sign_in("O01")
    form = {"asked": "kind=line&id=B1-T", "title": "came back", "because": "its bead", "notice": "please wait"}
    address = visit.ask("POST", "/containment", data=form | {"frames": [FRAME]}).headers["location"]
    assert "again since" not in seen(visit, address)
    send(bench_record, Tablet("BACK").tell(clock_now(-5), "stage", frame=FRAME, stage="returned"))
    assert "<strong>in the house</strong> again since" in seen(visit, address)
    told = {"serial": FRAME, "joint": "J01", "reported_by": "a rider", "symptom": "it creaks"}
    moments = {"reported": "2026-01-05T10:00", "knew": "2026-01-05T10:30"}
    claim = visit.ask("POST", "/claims", data=told | moments).headers["location"]
    step = {"step": "containment", "at": "2026-01-06T09:00", "words": "asked to stop", "to": "a neighbour"}
    assert visit.ask("POST", claim, data=step | {"serial": FRAME}).status_code == 303
    listed = seen(visit, "/containments")
    assert all(said in listed for said in ("Told out of a claim", "a neighbour", "asked to stop", claim))
