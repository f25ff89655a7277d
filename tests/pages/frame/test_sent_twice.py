"""One intention is one record: each form that records something, sent twice, is answered by its first outcome."""

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple

import httpx
import pytest
from fastapi.routing import iter_route_contexts

from server.judgement.signing import DECIDERS
from server.record.book_of_lines import now_ms
from server.work.concede import ConcessionAsked, concede
from server.work.judge_new import judge_new
from server.work.signature import Signing
from server.work.told_once import ToldBefore
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.story.works import PINS
from tests.work.small_shop import a_pass, send

KEY, A_DAY = "SW-1/A#1|purge-o2", "2099-03-01"
LEAD, OWNER = {"secret": PINS["LEA"]}, {"secret": PINS["OWN"]}
BOTH = LEAD | {"second": "OWN", "second_secret": PINS["OWN"]}
PAPER = b"%PDF-1.7\n1 0 obj\nendobj\n%%EOF\n"
CLAIM = {"serial": "SW-1", "reported_by": "a rider", "reported": "2026-01-05T10:00", "knew": "2026-01-05T10:30"}
LETTER = {"step": "letter", "at": "2026-01-06T09:00", "words": "asked for the frame", "to": "the rider"}
SHARED = {"asked": "kind=line&id=N-P", "title": "grey beads", "because": "one line", "notice": "Please stop riding."}
LEAVE = {"frames": "SW-1", "count": "1", "expires": A_DAY, "reason": "no load there"}
GREY = {"title": "grey bead", "held": "SW-1/A#1"}
STANDS = {"person": "WEL", "role": "quality lead", "until": A_DAY, "reason": "holiday"}


class Form(NamedTuple):
    """Where a form goes, by whom, what it holds; `~` in an address or a value stands for the number made last."""

    path: str
    person: str
    told: dict[str, str]
    files: Any = None


FORMS = {
    "claim": Form("/claims", "LEA", CLAIM | {"symptom": "it creaks"}),
    "claim step": Form("/claims/~", "LEA", LETTER, [("file", ("b.pdf", PAPER))]),
    "claim decided": Form("/claims/~", "LEA", LETTER | {"step": "decision", "settled": "closed"} | LEAD),
    "containment": Form("/containment", "LEA", SHARED | {"frames": "SW-1"}),
    "containment step": Form("/containments/~", "LEA", {"frame": "SW-1", "act": "told"} | LETTER),
    "concession": Form("/concessions", "LEA", LEAVE | BOTH),
    "nonconformity": Form("/nonconformities/new", "LEA", GREY | LEAD),
    "told anew": Form("/nonconformities/~", "LEA", GREY | {"cause": "a thin purge"} | LEAD),
    "hold": Form("/holds", "OWN", {"frame": "SW-1", "act": "placed", "reason": "counsel asked"} | OWNER),
    "hold lifted": Form("/holds", "OWN", {"frame": "SW-1", "act": "lifted", "reason": "counsel agreed"} | OWNER),
    "standing in": Form("/standing-in", "LEA", STANDS | LEAD),
    "standing in ended": Form("/standing-in/end", "LEA", {"which": "~"} | LEAD),
    "certificate": Form("/registers/certificates", "LEA", {"of": "tube heat:H-1"}, {"file": ("c.pdf", PAPER)}),
    "decision": Form("/desk/decide", "LEA", {"choice": "hold", "reason": "wait for the look inside"} | LEAD),
    "gate": Form("/gate/SW-1", "LEA", {"gate": "release", "override": "the customer waits"} | BOTH),
    "revision": Form("/procedures/TUBE/A/next", "LEA", {"release": "true"} | LEAD),
}


class Staying(ShopApp):
    """The application, in which whoever signed in once stays so, and what came in is judged before a gate is asked."""

    def __init__(self, data: Path) -> None:
        super().__init__(data)
        self._tokens: dict[str, str] = {}

    async def _ask(self, method: str, path: str, person: str | None, **more: Any) -> httpx.Response:
        if person and person not in self._tokens:
            told = {"person": person, "secret": PINS[person], "device": "desk"}
            came_in = await super()._ask("POST", "/sign-in", None, data=told)
            self._tokens[person] = came_in.cookies["strawline_session"]
        cookie = {"cookie": f"strawline_session={self._tokens[person]}"} if person else {}
        judge_new(self.record)
        return await super()._ask(method, path, None, headers=cookie, **more)


FIRST = {
    "claim step": "claim",
    "claim decided": "claim",
    "containment step": "containment",
    "told anew": "nonconformity",
    "hold lifted": "hold",
    "standing in ended": "standing in",
}
"""What has to be there before a form can be sent."""

ELSEWHERE = {
    "/audit": "tests/pages/audit: the same person is led to the draw, another is refused",
    "/audit/{number}": "tests/pages/audit",
    "/customers/{number}/remove": "tests/work/test_remove_details.py",
    "/suspect-sets/{check:path}": "tests/work/test_narrow.py",
    "/traces": "nothing is recorded; a file is kept once, by its SHA-256",
    "/traces/{sha256}/attach": "tests/pages/traces",
    "/traces/{sha256}/passes": "tests/pages/traces",
    "/people/secret": "sets what is set already",
    "/people/badge": "a badge printed anew takes the place of the one before",
    "/people/badge/take": "nothing is left to take",
    "/people/sign-out": "nobody is left to sign out",
    "/tablets/invite": "an invitation given anew voids the one before",
    "/tablets/revoke": "nothing is left to revoke",
    "/own/secret": "the session that sent it first is over",
    "/own/end": "nothing is left to end",
    "/own/role": "sets what is set already",
    "/own/passkeys/ask": "a number to prove by; nothing is recorded",
    "/own/passkeys": "a number proves once",
    "/own/passkeys/drop": "nothing is left to drop",
    "/sign-in": "a second session in place of the first",
    "/sign-in/badge": "as by PIN",
    "/sign-in/passkey/ask": "a number to prove by; nothing is recorded",
    "/sign-in/passkey": "a number proves once",
    "/hand-over": "nothing is left to end",
    "/enrol/invitation": "looking uses nothing up",
    "/enrol": "an invitation works once",
    "/device/number": "a number to prove by; nothing is recorded",
    "/device/proof": "a number proves once",
}
"""Addresses that take a form and stand in no row above: what a second sending comes to, or where that is proved."""


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    """The story's shop with one pass in bad gas."""
    made = Staying(Path(tmp_path_factory.mktemp("twice")))
    send(made.record, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    yield made
    made.record.close()


def position(app: ShopApp) -> int:
    with app.record.reads() as reads:
        return reads.last_position()


def carried(app: ShopApp, form: Form) -> dict[str, str]:
    """What the page of a form carries unseen, and the text that a revision begins with."""
    if form.path == "/procedures/TUBE/A/next":
        text = unescape(app.get(form.path, "LEA").text.partition("<textarea")[2].partition("</textarea>")[0])
        text = text.partition("\n")[2].replace('reason = ""', 'reason = "Two frames showed it can be done"')
        return {"text": text.replace("oxygen = { high = 20", "oxygen = { high = 5")}
    shown = "/desk/decide?key=SW-1/A%231%7Cpurge-o2" if form.path == "/desk/decide" else form.path
    if form.path != "/desk/decide" and not form.path.startswith("/nonconformities"):
        return {}
    found = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', app.get(shown, "LEA").text)
    return {name: unescape(value) for name, value in found}


def made_last(app: ShopApp, path: str) -> str:
    """The number that `~` stands for."""
    with app.record.reads() as reads:
        known = reads.registers()
    of = {"claims": known.claims, "containments": known.containments, "nonconformities": known.nonconformities}
    return list(of.get(path.split("/")[1], known.stand_ins))[-1]


def sent(app: ShopApp, form: Form, told: dict[str, str]) -> httpx.Response:
    return app.post(form.path, form.person, data=told, files=form.files)


@pytest.mark.parametrize("which", FORMS)
def test_the_same_form_sent_twice_is_one_record(app: ShopApp, which: str):
    """The second is led to the very place the first was led to, which says that nothing was recorded again."""
    form = FORMS[which]
    if which in FIRST:
        sent(app, FORMS[FIRST[which]], FORMS[FIRST[which]].told)
    if "~" in form.path or "~" in form.told.values():
        number = made_last(app, form.path)
        form = form._replace(path=form.path.replace("~", number))
        form = form._replace(told={name: said.replace("~", number) for name, said in form.told.items()})
    told = carried(app, form) | form.told
    before = position(app)
    first = sent(app, form, told)
    assert first.status_code == 303, first.text
    made = position(app)
    assert made > before
    again = sent(app, form, told)
    assert position(app) == made
    assert again.status_code == 303, again.text
    assert "twice=true" not in first.headers["location"]
    place, mark, _ = again.headers["location"].replace("?twice=true", "&twice=true").partition("&twice=true")
    assert (place, mark) == (first.headers["location"].partition("#")[0], "&twice=true")
    page = app.get(again.headers["location"], form.person)
    assert page.status_code == 200
    assert "it stands once, and nothing was recorded a second time" in page.text


def test_every_address_that_takes_a_form_is_asked_or_named(app: ShopApp):
    """A new one has to say what a second sending comes to; what is named is there."""
    posts = {str(each.path) for each in iter_route_contexts(app.app.routes) if "POST" in (each.methods or ())}
    asked = {path for path in posts for form in FORMS.values() if _is_at(form.path, path)}
    assert {each for each in posts if not each.startswith("/api/")} - asked == set(ELSEWHERE)


def _is_at(address: str, path: str) -> bool:
    return re.fullmatch(re.sub(r"\{[^}]+\}", "[^/]+", path), address) is not None


def test_with_one_word_different_it_is_another_one(app: ShopApp):
    """What differs in one word, or is written by somebody else, is a record of its own."""
    told = CLAIM | {"symptom": "it clicks"}
    first = app.post("/claims", "LEA", data=told).headers["location"]
    for other in (
        app.post("/claims", "LEA", data=told | {"symptom": "it clicks uphill"}),
        app.post("/claims", "OWN", data=told),
    ):
        assert other.status_code == 303
        assert other.headers["location"] not in (first, f"{first}?twice=true")


def test_two_at_the_very_same_moment_are_one_record(app: ShopApp):
    """Both wait for the same turn of the writer: one is written, the other is answered by its number."""
    signings = tuple(Signing("OWN", "", "desk", role, "concession given") for role in sorted(DECIDERS))
    asked = ConcessionAsked(("SW-1",), "borne twice", signings, count=1, expires_ms=now_ms() + 1_000_000)
    futures = [app.record.write(lambda reads: concede(reads, asked, now_ms())) for _ in range(3)]
    numbers = [each.result() for each in futures]
    assert len(set(numbers)) == 1
    assert [isinstance(each, ToldBefore) for each in numbers] == [False, True, True]


def test_an_empty_file_and_one_too_large_are_no_evidence(app: ShopApp):
    """What was chosen and has nothing in it is refused with the words kept; what is too large is told on a page."""
    number = sent(app, FORMS["claim"], FORMS["claim"].told).headers["location"].split("/")[2].partition("?")[0]
    before = position(app)
    empty = app.post(f"/claims/{number}", "LEA", data=LETTER | {"words": "a sheet"}, files={"file": ("a.pdf", b"")})
    assert empty.status_code == 422
    assert "file 1: nothing is in it" in empty.text
    assert ">a sheet</textarea>" in empty.text
    large = app.post(f"/claims/{number}", "LEA", data=LETTER, files={"file": ("a.pdf", b"0" * 60_000_000)})
    assert large.status_code == 413
    assert "What you sent has 60.0 MB" in large.text
    assert 'data-answer="trouble"' in large.text
    assert position(app) == before


def test_at_a_gate_somebody_else_is_told_who_signed(app: ShopApp):
    """Two look at one gate: whoever signs second is told that it is signed, by whom, and that theirs is not."""
    told = {"gate": "final inspection", "override": "shown to the customer"}
    first = {"second": "OWN", "second_secret": PINS["OWN"]} | LEAD
    assert app.post("/gate/SW-1", "LEA", data=told | first).status_code == 303
    made = position(app)
    other = {"second": "LEA", "second_secret": PINS["LEA"]} | OWNER
    refused = app.post("/gate/SW-1", "OWN", data=told | {"override": "they asked for it"} | other)
    assert refused.status_code == 409
    assert "Quin Moor and Ole Hart signed it while you looked" in refused.text
    assert position(app) == made
