"""A decision carries its evidence: pictures ticked and papers sent are named in what is signed, and shown with it."""

import re

import pytest

from server.record.book_of_lines import Record
from server.record.files import Files
from server.settings import Settings
from tests.documents.drawn_picture import as_bytes, drawn
from tests.pages.bench.bench_shop import FRAME, PIN
from tests.pages.bench.fixtures import Visit
from tests.pages.photographed import judge, log_pass, log_photo, named, send_photo

COPIED, NEVER_SENT = as_bytes(drawn("#2f63b5")), as_bytes(drawn("#123456"))
PDF = b"%PDF-1.7\n1 0 obj\n%%EOF\n"
KEY = f"{FRAME}/J04#1|photo-own"


@pytest.fixture(scope="module")
def pictured(bench_record: Record, tmp_path_factory: pytest.TempPathFactory) -> Visit:
    """A finding: one picture on two joints; and a picture that has not come."""
    visit = Visit(bench_record, Settings(data_folder=tmp_path_factory.mktemp("data")))
    visit.sign_in("Q01")
    for seq, joint in ((1, "J03"), (2, "J04")):
        log_pass(visit, seq, joint)
    for seq, joint in ((3, "J03"), (4, "J04")):
        log_photo(visit, seq, joint, COPIED)
    log_photo(visit, 5, "J04", NEVER_SENT, side="inside")
    send_photo(visit, COPIED)
    judge(bench_record)
    return visit


@pytest.fixture
def lead(pictured: Visit) -> Visit:
    """The lead before it."""
    pictured.sign_in("Q01")
    return pictured


def sign(lead: Visit, photos: list[str], files: list[bytes]) -> tuple[int, str]:
    """Sign the decision as the form does; gives the status and the answer's text."""
    page = lead.ask("GET", "/desk/decide", params={"key": KEY}).text
    shown = re.search(r'name="shown_sha256" value="([0-9a-f]{64})"', page)
    assert shown, page
    told = {"key": KEY, "choice": "hold", "shown_sha256": shown[1], "secret": PIN, "reason": "until it is taken anew"}
    sent = [("files", (f"{number}.pdf", content)) for number, content in enumerate(files)]
    answer = lead.ask("POST", "/desk/decide", data=told | {"photo": photos}, files=sent)
    return answer.status_code, answer.text


def test_the_form_shows_the_pictures_in_question(lead: Visit):
    """The joint's pictures stand beside the finding to be ticked; one that has not come cannot be."""
    page = lead.ask("GET", "/desk/decide", params={"key": KEY}).text
    assert f'name="photo" value="{named(COPIED)}">' in page
    assert f'name="photo" value="{named(NEVER_SENT)}" disabled>' in page
    assert "Not yet arrived from tablet TAB-P" in page


def test_what_is_signed_names_its_evidence(lead: Visit, bench_record: Record):
    """The sealed paper holds each SHA-256 and the signature declares them; the page shows both files to anybody in."""
    assert sign(lead, [named(COPIED)], [PDF])[0] == 303
    with bench_record.reads() as reads:
        made = [each for each in reads.registers().decisions.values() if each.attachments]
    (decision,) = made
    assert decision.attachments == (named(COPIED), named(PDF))
    meaning = decision.signatures[0].meaning
    assert meaning == f"decided: hold, on 2 files: {named(COPIED)[:16]}…, {named(PDF)[:16]}…"
    lead.sign_in("W01")
    page = lead.ask("GET", f"/decisions/{decision.id}")
    assert (page.status_code, page.text.count("SHA-256 ")) == (200, 3)
    at = f"/decisions/{decision.id}/files"
    assert lead.ask("GET", f"{at}/{named(COPIED)}?size=thumb").headers["content-type"] == "image/jpeg"
    paper = lead.ask("GET", f"{at}/{named(PDF)}")
    assert (paper.content, paper.headers["content-type"]) == (PDF, "application/pdf")
    assert paper.headers["content-disposition"].startswith("attachment")
    assert "evidence: 2 files" in lead.ask("GET", f"/history/{FRAME}/J04").text
    assert lead.ask("GET", f"{at}/{named(NEVER_SENT)}").status_code == 404
    assert lead.ask("GET", "/decisions/D-none").status_code == 404


@pytest.mark.parametrize(
    ("photos", "files", "said"),
    [
        ([named(NEVER_SENT)], [], "has not arrived"),
        (["../../etc/passwd"], [], "has not arrived"),
        ([], [b"<html>a page</html>"], "neither a picture"),
        ([], [b"%PDF-1.7 cut off"], "neither a picture"),
        ([], [PDF + bytes([each]) for each in range(13)], "at most 12"),
    ],
)
def test_what_cannot_be_evidence_is_refused(
    lead: Visit, bench_record: Record, photos: list[str], files: list[bytes], said: str
):
    """A picture nobody can have seen, and a file that is not what it says: nothing is signed, and it is said why."""
    with bench_record.reads() as reads:
        before = len(reads.registers().decisions)
    status, text = sign(lead, photos, files)
    assert (status, said in text) == (422, True)
    with bench_record.reads() as reads:
        assert len(reads.registers().decisions) == before


def test_files_are_kept_only_from_who_proved_who_they_are(lead: Visit):
    """With a wrong PIN nothing is kept and nothing signed."""
    page = lead.ask("GET", "/desk/decide", params={"key": KEY}).text
    shown = re.search(r'name="shown_sha256" value="([0-9a-f]{64})"', page)
    assert shown
    told = {"key": KEY, "choice": "hold", "shown_sha256": shown[1], "secret": "000000", "reason": "until taken anew"}
    other = PDF.replace(b"1 0", b"2 0")
    assert lead.ask("POST", "/desk/decide", data=told, files={"files": ("a", other)}).status_code == 422
    assert Files(lead.folder).read(named(other)) is None
