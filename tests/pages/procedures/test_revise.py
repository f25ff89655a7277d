"""A next revision is begun in the browser, held against what was welded, and released with a signature."""

import re
from collections.abc import Iterator
from datetime import timedelta
from html import unescape
from pathlib import Path

import httpx
import pytest

from server.record.book_of_lines import now_ms
from server.work.release_revision import released_text
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.story.works import PINS
from tests.work.small_shop import a_pass, send

NEXT = "/procedures/TUBE/A/next"
TIGHT = ("oxygen = { high = 20", "oxygen = { high = 5")
WIDE = ("oxygen = { high = 20", "oxygen = { high = 400")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[ShopApp]:
    made = ShopApp(tmp_path)
    slate = Tablet("SLATE")
    send(made.record, a_pass(slate, "1:00", oxygen="8"), a_pass(slate, "1:30", "B", oxygen="300"))
    yield made
    made.record.close()


def begun(shop: ShopApp, *changes: tuple[str, str], reason: str = "Two frames showed what clean gas can do") -> str:
    page = shop.get(NEXT, "LEA").text
    found = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", page, re.DOTALL)
    assert found
    text = unescape(found[1]).replace('reason = ""', f'reason = "{reason}"')
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text


def posted(shop: ShopApp, text: str, person: str = "LEA", **more: str) -> httpx.Response:
    return shop.post(NEXT, person, data={"text": text.replace("\n", "\r\n")} | more)


def test_what_a_tighter_limit_would_have_caught(shop: ShopApp):
    """A pass that is within today is shown as caught by the tighter limit, with both words; nothing is kept."""
    with shop.record.reads() as reads:
        before = reads.last_position()
    page = posted(shop, begun(shop, TIGHT))
    assert page.status_code == 200
    assert "1 it would have caught" in page.text
    assert "SW-1/A#1" in page.text
    assert "at most 20 ppm" in page.text
    assert "at most 5 ppm" in page.text
    with shop.record.reads() as reads:
        assert reads.last_position() == before


def test_what_a_wider_limit_would_have_let_go(shop: ShopApp):
    """A limit beyond its qualification record is refused by line; without one, what it lets go is shown."""
    page = posted(shop, begun(shop, WIDE))
    assert "1 it would have let go" in page.text
    assert "SW-1/B#1" in page.text


def test_nothing_is_lost_when_something_is_wrong(shop: ShopApp):
    """A complaint names the line; the text stands as it was left."""
    text = begun(shop, ('unit = "ppm"', 'unit = "parsec"'))
    page = posted(shop, text)
    assert page.status_code == 422
    assert re.search(r"line \d+: .*parsec", unescape(page.text))
    assert "parsec" in page.text.partition("<textarea")[2]


def test_released_with_a_signature_it_is_in_the_record(shop: ShopApp):
    """The lead's PIN releases it: the text, its digest and the signature are one line, and the page shows it."""
    text = begun(shop, TIGHT)
    answer = posted(shop, text, release="true", secret=PINS["LEA"])
    assert (answer.status_code, answer.headers["location"]) == (303, "/procedures/TUBE/B")
    with shop.record.reads() as reads:
        told = released_text(reads, reads.registers().procedures["TUBE", "B"])
    assert told.text == text
    later = 'Released since rev A:</strong> <a href="/procedures/TUBE/A/against/B">rev B</a>'
    assert later in shop.get(NEXT, "LEA").text
    other = posted(shop, text.replace("clean gas", "slow gas"))
    assert later in other.text
    assert told.signature is not None
    assert (told.signature.person, told.signature.shown_sha256) == ("LEA", told.sha256)
    assert "at most 5 ppm" in shop.get("/procedures/TUBE/B").text
    with shop.record.reads() as reads:
        lead = reads.registers().people["LEA"].name
    assert f"{lead}, quality lead, " in shop.get("/procedures/TUBE/B", "WEL").text
    assert lead not in shop.get("/procedures/TUBE/B").text
    file = shop.get("/procedures/TUBE/B/file", "WEL")
    assert (file.text, "rev_b.toml" in file.headers["content-disposition"]) == (text, True)


PIECE = 'standard = "shop test piece"'
BY_A_TABLE = (PIECE, PIECE + '\nchanges_by = ["ASME IX QW-256, rows read"]')
BARE = ('filler_classes = ["ERTi-9"]', "filler_classes = []")
TESTED = ("[[cautions]]", f'[[supports]]\nid = "PR-2"\ndated = 2026-01-05\n{PIECE}\n\n[[cautions]]')


def test_a_change_that_wants_a_new_record_is_not_released_without_one(shop: ShopApp):
    """Filler taken out is shown with clause and edition and not released; with a new record named it is."""
    text = begun(shop, BY_A_TABLE, BARE)
    page = unescape(posted(shop, text).text)
    assert "wants a new supporting record" in page
    assert "QW-404.14" in page
    assert "your own copy of the code comes first" in page
    refused = posted(shop, text, release="true", secret=PINS["LEA"])
    assert refused.status_code == 422
    assert "filler: added became none; by QW-404.14 that wants a new supporting record" in unescape(refused.text)
    tested = text.replace(*TESTED, 1)
    assert "see that it was welded so" in posted(shop, tested).text
    assert posted(shop, tested, release="true", secret=PINS["LEA"]).status_code == 303
    assert "It rests on PR-2" in shop.get("/procedures/TUBE/A/against/B").text


def test_where_no_record_names_a_table_the_page_says_so(shop: ShopApp):
    """Nothing is asked and the page says whose word it is."""
    page = unescape(posted(shop, begun(shop, TIGHT)).text)
    assert "no qualification record names a table of essential variables" in page
    assert "ASME IX QW-256, rows read" in page


def test_what_was_welded_before_stays_judged_as_it_was(shop: ShopApp):
    """A released revision starts on its day: yesterday's pass is judged by the one in force then."""
    posted(shop, begun(shop, TIGHT), release="true", secret=PINS["LEA"])
    with shop.record.reads() as reads:
        new = reads.registers().procedures["TUBE", "B"]
        assert {each.key for each in reads.findings() if "purge-o2" in each.key} == {"SW-1/B#1|purge-o2"}
    assert new.valid_from.toordinal() * 86_400_000 > (now_ms() - timedelta(days=1).total_seconds() * 1000)


@pytest.mark.parametrize(
    ("changes", "secret", "said"),
    [
        ((TIGHT,), "000000", "Not released"),
        ((), PINS["LEA"], "nothing that is asked or allowed differs"),
    ],
)
def test_what_may_not_be_released(shop: ShopApp, changes: tuple[tuple[str, str], ...], secret: str, said: str):
    """A wrong PIN, or a text in which nothing differs, releases nothing and says why."""
    answer = posted(shop, begun(shop, *changes), release="true", secret=secret)
    assert answer.status_code in (403, 422)
    assert said in unescape(answer.text)
    with shop.record.reads() as reads:
        assert ("TUBE", "B") not in reads.registers().procedures


def test_a_welder_neither_writes_nor_releases(shop: ShopApp):
    """The page and its form are for lead and owner."""
    assert shop.get(NEXT, "WEL").status_code == 403
    assert posted(shop, "x", "WEL").status_code == 403
