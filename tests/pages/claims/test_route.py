"""Claims, dossiers, causes and what else open to those who answer for frames, and to nobody else."""

import re

import pytest

from tests.documents.drawn_picture import drawn, from_a_telephone
from tests.pages.bench.bench_shop import FRAME
from tests.pages.bench.fixtures import Visit

ADDRESSES = (
    f"/history/{FRAME}/dossier.pdf",
    f"/history/{FRAME}/dossier.json",
    f"/history/{FRAME}/dossier.csv",
    f"/history/{FRAME}/J01/causes",
    "/what-else",
    "/claims",
)
PICTURE, PDF = from_a_telephone(drawn()), b"%PDF-1.7\n1 0 obj\n%%EOF\n"
LETTER = [("file", ("a.png", PICTURE, "text/html")), ("file", ("b", PDF))]
CLAIM = {
    "serial": FRAME,
    "joint": "J01",
    "reported_by": "a rider",
    "reported": "2026-01-05T10:00",
    "knew": "2026-01-05T10:30",
    "symptom": "it creaks",
}


@pytest.mark.parametrize("address", ADDRESSES)
def test_only_who_answers_for_frames_may_read(visit: Visit, address: str):
    """Nobody unknown and no welder reads them."""
    assert visit.ask("GET", address).status_code == 401
    visit.sign_in("W01")
    assert visit.ask("GET", address).status_code == 403


def test_the_dossier_comes_in_three_shapes(visit: Visit):
    """The address of a document is not taken for a joint's, and the PDF carries what the JSON says."""
    visit.sign_in("O01")
    pdf = visit.ask("GET", f"/history/{FRAME}/dossier.pdf")
    assert (pdf.headers["content-type"], pdf.content[:5]) == ("application/pdf", b"%PDF-")
    told = visit.ask("GET", f"/history/{FRAME}/dossier.json").json()
    assert (told["serial"], told["for"]) == (FRAME, "shop")
    assert visit.ask("GET", f"/history/{FRAME}/dossier.json?for=customer").json()["for"] == "customer"
    assert visit.ask("GET", f"/history/{FRAME}/dossier.csv").text.startswith("\ufeffserial,joint")
    assert visit.ask("GET", f"/history/{FRAME}/dossier.pdf?for=anybody").status_code == 422


def test_a_claim_is_opened_and_added_to(visit: Visit):
    """From the form to the file: the claim is shown, a letter is added with its files, and each can be fetched."""
    visit.sign_in("O01")
    opened = visit.ask("POST", "/claims", data=CLAIM)
    assert opened.status_code == 303
    address = opened.headers["location"]
    step = {"step": "letter", "at": "2026-01-06T09:00", "words": "asked for the frame", "to": "the rider"}
    assert visit.ask("POST", address, data=step, files=LETTER).status_code == 303
    page = visit.ask("GET", address).text
    assert "it creaks" in page
    assert "asked for the frame" in page
    picture, paper = dict.fromkeys(re.findall(rf"{address}/files/[0-9a-f]{{64}}", page))
    shown, saved = visit.ask("GET", picture), visit.ask("GET", f"{picture}?size=kept")
    assert (shown.headers["content-type"], saved.content) == ("image/jpeg", PICTURE)
    assert b"Invented" not in shown.content
    sent = visit.ask("GET", paper)
    assert sent.content == PDF
    for each in (saved, sent):
        assert each.headers["content-disposition"].startswith("attachment")
        assert "sandbox" in each.headers["content-security-policy"]
    assert visit.ask("GET", f"{address}/files/{'0' * 64}").status_code == 404


def test_what_came_with_it_is_told_by_its_content(visit: Visit):
    """A page of script that calls itself a picture is refused in words, and the step with it."""
    visit.sign_in("O01")
    address = visit.ask("POST", "/claims", data=CLAIM).headers["location"]
    step = {"step": "letter", "at": "2026-01-06T09:00", "words": "with something else", "to": "the rider"}
    files = [("file", ("a.png", b"<script>alert(1)</script>", "image/png"))]
    answer = visit.ask("POST", address, data=step, files=files)
    assert answer.status_code == 422
    assert "neither a picture" in answer.text
    assert "with something else</span>" not in visit.ask("GET", address).text


def test_what_is_wrong_stays_in_the_form(visit: Visit):
    """A wrong serial and an unreadable moment are named, and what was typed is still there."""
    visit.sign_in("O01")
    answer = visit.ask("POST", "/claims", data=CLAIM | {"serial": "NO-1"})
    assert answer.status_code == 422
    assert "is no serial the record knows" in answer.text
    assert "it creaks" in answer.text
    assert "is no moment" in visit.ask("POST", "/claims", data=CLAIM | {"knew": "soon"}).text


def test_a_decision_without_a_secret_is_not_taken(visit: Visit):
    """A decision in a claim is signed: without the right PIN nothing is added."""
    visit.sign_in("O01")
    address = visit.ask("POST", "/claims", data=CLAIM).headers["location"]
    step = {"step": "decision", "at": "2026-01-06T09:00", "words": "replace it", "secret": "000000"}
    assert visit.ask("POST", address, data=step).status_code == 422
    assert "replace it</span>" not in visit.ask("GET", address).text


def test_what_else_names_what_is_wrong(visit: Visit):
    """A kind nobody can ask by, a thing under no pass, and a day that is none are each said."""
    visit.sign_in("O01")
    assert "is nothing to ask by" in visit.ask("GET", "/what-else?kind=moon&id=1").text
    assert "stands under no pass" in visit.ask("GET", "/what-else?kind=line&id=NO").text
    assert "is not a day" in visit.ask("GET", "/what-else?kind=line&id=NO&since=soon").text


def test_a_moment_that_has_not_come_is_named_as_it_was_typed(visit: Visit):
    """The complaint has the shop's own clock, not the record's, and what was typed stands in the form again."""
    visit.sign_in("O01")
    answer = visit.ask("POST", "/claims", data=CLAIM | {"reported": "2099-07-01T10:00"})
    assert answer.status_code == 422
    assert "reported: Wed 01 Jul 2099 10:00 has not come yet" in answer.text
    assert "it creaks" in answer.text
    assert "it creaks" in visit.ask("POST", "/claims", data=CLAIM | {"serial": ""}).text
