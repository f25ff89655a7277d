"""Pictures as they are shown: set anew, side by side in the order taken, and awaited by name while they are away."""

import re
from io import BytesIO

import pikepdf
import pytest
from PIL import Image

from server.facts.moment import show_moment
from server.record.book_of_lines import Record, now_ms
from server.settings import Settings
from tests.documents.drawn_picture import as_bytes, drawn, from_a_telephone
from tests.pages.bench.bench_shop import FRAME, LEAD, WELDER
from tests.pages.bench.fixtures import Visit
from tests.pages.photographed import judge, log, log_pass, log_photo, named, send_photo

FIRST = from_a_telephone(drawn(size=(2400, 1600)))
SECOND, AWAITED, TAKEN_BACK = (as_bytes(drawn(tint)) for tint in ("#2f63b5", "#8a5a2b", "#7b4fa0"))
COPY = as_bytes(drawn("#2f63b5", (318, 199)))


@pytest.fixture(scope="module")
def shop(bench_record: Record, tmp_path_factory: pytest.TempPathFactory) -> Visit:
    """J03 with three pictures, told in another order than taken, one of them away; J04 with one; one taken back."""
    visit = Visit(bench_record, Settings(data_folder=tmp_path_factory.mktemp("data")))
    visit.sign_in(WELDER)
    for seq, joint in ((1, "J03"), (2, "J04")):
        log_pass(visit, seq, joint)
    earlier = show_moment(now_ms() - 120_000)
    log_photo(visit, 3, "J03", SECOND, side="inside")
    log_photo(visit, 4, "J03", FIRST, taken=earlier)
    log_photo(visit, 5, "J03", AWAITED, note="too dark")
    log(visit, 6, kind="look", joint="J03", side="inside", zone="bead", grade=1, photo=named(SECOND))
    log_photo(visit, 7, "J04", SECOND)
    back = log_photo(visit, 8, "J03", TAKEN_BACK)
    log(visit, 9, kind="correction", of=back, withdraw=True, reason="of the bench, not of the seam")
    send_photo(visit, FIRST)
    send_photo(visit, SECOND)
    judge(bench_record)
    return visit


@pytest.fixture
def visit(shop: Visit) -> Visit:
    """A welder in the shop."""
    shop.sign_in(WELDER)
    return shop


def figures(page: str) -> list[str]:
    """Give each picture's figure with its words, in the page's order."""
    return [re.sub(r"\s+", " ", each) for each in re.findall(r'<figure class="photo">(.*?)</figure>', page, re.DOTALL)]


def test_a_joints_pictures_stand_side_by_side_in_the_order_taken(visit: Visit):
    """Taken first stands first whatever was logged first, with side, zone, moment, who, and the grade of its look."""
    shown = figures(visit.ask("GET", f"/history/{FRAME}/J03").text)
    assert len(shown) == 3
    assert [name in each for each, name in zip(shown, map(named, (FIRST, SECOND)), strict=False)] == [True, True]
    assert "outside, bead, as welded" in shown[0]
    assert "inside, bead, as welded" in shown[1]
    assert "graded 1" in shown[1]
    assert all("Pell Adair" in each for each in shown)


def test_one_that_is_away_is_awaited_from_its_tablet(visit: Visit):
    """It is named with its tablet and its note, and no empty frame is shown for it."""
    shown = figures(visit.ask("GET", f"/history/{FRAME}/J03").text)[2]
    assert "Not yet arrived from tablet TAB-P" in shown
    assert "too dark" in shown
    assert "<img" not in shown


def test_what_the_rules_say_of_it_stands_under_it(visit: Visit):
    """The joint that has another's picture is told so under the picture itself; the other joint is within."""
    (copied,) = figures(visit.ask("GET", f"/history/{FRAME}/J04").text)
    assert "outside" in copied
    assert f"Its picture is the one of {FRAME}/J03" in copied
    assert "no other joint has it" in figures(visit.ask("GET", f"/history/{FRAME}/J03").text)[1]


def test_the_history_has_them_too(visit: Visit):
    """Four pictures stand under their joints; the one taken back is not shown, its entry still is."""
    page = visit.ask("GET", f"/history/{FRAME}").text
    assert len(figures(page)) == 4
    assert named(TAKEN_BACK) not in page


def test_a_picture_is_set_anew_before_it_is_shown(visit: Visit):
    """Small and full, as JPEG without what the camera told, kept by the browser and by nobody between."""
    for size, longest in (("thumb", 480), ("full", 1600)):
        answer = visit.ask("GET", f"/photos/{named(FIRST)}?size={size}")
        with Image.open(BytesIO(answer.content)) as shown:
            assert (shown.format, max(shown.size)) == ("JPEG", longest)
        assert b"Invented" not in answer.content
        assert answer.headers["content-type"] == "image/jpeg"
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["cache-control"] == "private, max-age=31536000, immutable"


@pytest.mark.parametrize("name", [named(AWAITED), "0" * 64, "nothing", "..%2F..%2Frecord.sqlite3"])
def test_only_what_arrived_is_shown(visit: Visit, name: str):
    """A name nobody sent bytes for, and no name at all, are 404; no path leads out of the folder."""
    assert visit.ask("GET", f"/photos/{name}").status_code == 404


def test_a_file_of_another_paper_is_no_picture_of_the_bench(visit: Visit):
    """What came with a claim is not handed out here, whoever knows its SHA-256."""
    private = as_bytes(drawn("#0000ff"))
    visit.sign_in("O01")
    claim = {"serial": FRAME, "reported_by": "a rider", "reported": "2026-01-05T10:00", "knew": "2026-01-05T10:30"}
    address = visit.ask("POST", "/claims", data=claim | {"symptom": "it creaks"}).headers["location"]
    step = {"step": "photo", "at": "2026-01-06T09:00", "words": "came by mail"}
    assert visit.ask("POST", address, data=step, files={"file": ("a.jpg", private)}).status_code == 303
    assert visit.ask("GET", f"{address}/files/{named(private)}").status_code == 200
    visit.sign_in(WELDER)
    assert visit.ask("GET", f"/photos/{named(private)}").status_code == 404
    assert visit.ask("GET", f"{address}/files/{named(private)}").status_code == 403


def test_nobody_unknown_sees_one(shop: Visit):
    """Without a session 401, the picture and its page alike."""
    shop.forget()
    assert shop.ask("GET", f"/photos/{named(FIRST)}").status_code == 401
    assert shop.ask("GET", f"/history/{FRAME}/photos/TAB-P:b:4").status_code == 401


def test_one_is_shown_large_with_its_neighbours(visit: Visit):
    """The page tells what is known of it, and leads to the one taken before and the one after."""
    page = visit.ask("GET", f"/history/{FRAME}/photos/TAB-P:b:3").text
    assert 'rel="prev" href="/history/MT-0401/photos/TAB-P%3Ab%3A4"' in page
    assert 'rel="next" href="/history/MT-0401/photos/TAB-P%3Ab%3A5"' in page
    assert "2 of 4" in page
    assert "byte for byte as it was sent" in page
    first = visit.ask("GET", f"/history/{FRAME}/photos/TAB-P:b:4").text
    assert "without what the file told beside the picture" in first
    assert 'rel="prev"' not in first
    assert visit.ask("GET", f"/history/{FRAME}/photos/TAB-P:b:1").status_code == 404


def test_the_dossier_has_them_by_their_hash(shop: Visit):
    """The data names each with its SHA-256, the document carries those that came, the customer's without a name."""
    shop.sign_in("O01")
    at = f"/history/{FRAME}/dossier"
    told = shop.ask("GET", f"{at}.json").json()
    assert [each["sha256"] for each in told["photos"]][:3] == [*map(named, (FIRST, SECOND, AWAITED))]
    assert [each["who"] for each in told["photos"]] == [WELDER] * 4
    assert [each["arrived"] is None for each in told["photos"]] == [False, False, True, False]
    assert {each["kind"] for each in told["way"]} & {"photo", "arrived"} == set()
    for asked in ("", "?for=customer"):
        pdf = shop.ask("GET", f"{at}.pdf{asked}").content
        with pikepdf.open(BytesIO(pdf)) as opened:
            found = {image.objgen for page in opened.pages for image in page.get_images().values()}
        assert len(found) == 2
        assert b"Invented" not in pdf
    plain = shop.ask("GET", f"{at}.json?for=customer").json()
    assert {each["who"] for each in plain["photos"]} == {"welder 1"}


def test_the_records_own_look_finds_a_copy(shop: Visit, bench_record: Record):
    """A picture saved again has other bytes; named by a tablet without a look, it is found when its bytes arrive."""
    key = [f"{FRAME}/J05#1|photo-alike"]
    shop.sign_in(LEAD)
    log_pass(shop, 20, "J05")
    log_photo(shop, 21, "J05", COPY)
    judge(bench_record)
    with bench_record.reads() as reads:
        assert reads.findings(keys=key) == []
    # Its sender does not say of which frame it is; the entry has.
    assert shop.ask("POST", "/api/photos", content=COPY).status_code == 200
    with bench_record.reads() as reads:
        arrived = reads.line(f"house:arrived:{named(COPY)}")
    assert arrived is not None
    assert arrived.frame == FRAME
    judge(bench_record)
    with bench_record.reads() as reads:
        assert len(reads.findings(keys=key)) == 1
