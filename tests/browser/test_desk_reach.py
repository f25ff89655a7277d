"""The desk's screens read well, send once, and give back what was typed whatever the answer."""

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from server.record.book_of_lines import Record
from tests.browser.chromium import LANDSCAPE, PORTRAIT
from tests.browser.desk_shop import DESK, at_the_desk, desk_shop, drawn_week
from tests.story.works import PINS

PAGES = (
    "/desk", "/desk/question/purge-o2", "/desk/decide?key=SW-1/A%231|purge-o2",
    "/open-on-shipped", "/suspect-sets", "/suspect-sets/{check}",
    "/nonconformities", "/nonconformities/NC-1", "/concessions", "/audit", "/audit/{draw}",
    "/charts?quantity=oxygen", "/charts/faults", "/charts/checks", "/registers", "/registers/continuity",
    "/registers/calibrations", "/history/SW-1/A", "/gate/hold-point/SW-1/A", "/gate/SW-1", "/entries/PAD:b1:13",
)  # fmt: skip
KEY, LONG = "SW-1/A#1|purge-o2", "a letter of many pages " * 400
_SIDEWAYS = """[...document.querySelectorAll('.calendar')].filter((each) => each.offsetParent)
  .filter(({ parentElement: box }) => box.scrollWidth > box.clientWidth).map((each) => each.parentElement.className)"""
_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    "rules": {"color-contrast-enhanced": {"enabled": False}},
}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Record, str]]:
    with desk_shop(Path(tmp_path_factory.mktemp("desk"))) as found:
        yield found


@pytest.fixture(scope="module")
def page(browser: Browser, shop: tuple[Record, str]) -> Iterator[Page]:
    found = at_the_desk(browser, shop[1])
    yield found
    found.context.close()


@pytest.fixture
def hasty(browser: Browser, shop: tuple[Record, str]) -> Iterator[Page]:
    """A browser of its own, signed in."""
    found = at_the_desk(browser, shop[1])
    yield found
    found.context.close()


def address_of(path: str, record: Record) -> str:
    return path.replace("{draw}", drawn_week(record)).replace("{check}", "PAD:b1:13")


@pytest.mark.parametrize("path", PAGES)
def test_nothing_stands_in_the_way_of_reading(page: Page, shop: tuple[Record, str], path: str):
    """The page answers, axe finds nothing on it, and it is no wider than a desk, a laptop or a standing tablet."""
    record, address = shop
    answer = page.goto(address + address_of(path, record))
    assert answer is not None
    assert answer.status == 200
    page.evaluate("document.querySelectorAll('details:not(.more)').forEach((each) => { each.open = true })")
    found = Axe().run(page, options=_RULES).response
    assert [(each["id"], node["html"][:200]) for each in found["violations"] for node in each["nodes"]] == []
    for width, height in (DESK, LANDSCAPE, PORTRAIT):
        page.set_viewport_size({"width": width, "height": height})
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), (width, height)
        assert page.evaluate(_SIDEWAYS) == [], (width, height)


def test_axe_sees_what_is_wrong(page: Page, shop: tuple[Record, str]):
    """Control: a field without a label and a pale text put into the desk are reported."""
    page.goto(shop[1] + "/desk")
    page.evaluate("document.querySelector('main').insertAdjacentHTML('beforeend', '<input><p id=pale>pale</p>')")
    page.evaluate("document.querySelector('#pale').style.color = '#ddd'")
    found = {each["id"] for each in Axe().run(page, options=_RULES).response["violations"]}
    assert {"label", "color-contrast"} <= found


def test_a_recording_is_drawn_and_not_a_black_box(page: Page, shop: tuple[Record, str]):
    """The joint's page draws three curves with their own style: the box is empty, the band is not."""
    page.goto(shop[1] + "/history/SW-1/A")
    filled = "(name) => getComputedStyle(document.querySelector('.recordings ' + name)).fill"
    assert page.locator(".recordings .curves").count() == 3
    assert page.evaluate(filled, ".curves-box") == "none"
    assert page.evaluate(filled, ".curve-area-trace") != "none"


def test_the_masthead_is_one_row(page: Page, shop: tuple[Record, str]):
    """On a desk's and a laptop's screen every link of the masthead stands on one line, and More opens by keyboard."""
    page.goto(shop[1] + "/desk")
    for width, height in (DESK, LANDSCAPE):
        page.set_viewport_size({"width": width, "height": height})
        middles = page.evaluate(
            "[...document.querySelectorAll('.masthead nav > a, .masthead summary')]"
            ".map((each) => each.getBoundingClientRect()).map((box) => Math.round(box.top + box.height / 2))"
        )
        assert len(middles) >= 6
        assert max(middles) - min(middles) <= 1
    page.focus(".masthead summary")
    page.keyboard.press("Enter")
    assert page.is_visible(".masthead .more a[href='/what-else']")


def test_what_was_typed_outlives_a_sign_in_that_ran_out(browser: Browser, shop: tuple[Record, str]):
    """Sent after the session was over, a form comes back filled but for its PIN, to the same person and nobody else."""
    for back, stands in (("LEA", "a long reason"), ("OWN", "")):
        page = at_the_desk(browser, shop[1])
        page.goto(f"{shop[1]}/concessions")
        page.fill("[name=frames]", "SW-1")
        page.fill("[name=reason]", "a long reason")
        page.fill("[name=expires]", "2031-01-01")
        page.fill("[name=secret]", "000000")
        page.context.clear_cookies()
        page.evaluate("document.querySelector('[name=secret]').form.requestSubmit()")
        page.wait_for_selector("#secret")
        page.check(f"input[value={back}]", force=True)
        page.fill("#secret", PINS[back])
        page.click("button.main")
        page.wait_for_url("**/concessions")
        assert page.input_value("[name=reason]") == stands
        assert page.input_value("[name=secret]") == ""
        assert ("your sign-in had run out" in page.inner_text("main")) == bool(stands)
        page.context.close()


def write_a_claim(hasty: Page, address: str, symptom: str) -> None:
    hasty.goto(f"{address}/claims")
    told = {"serial": "SW-1", "reported_by": "a rider", "reported": "2026-01-05T10:00", "knew": "2026-01-05T10:30"}
    for name, said in (told | {"symptom": symptom}).items():
        hasty.fill(f"[name={name}]", said)


def test_a_double_click_sends_once(hasty: Page, shop: tuple[Record, str]):
    """Two clicks and an Enter while the answer is awaited are one sending; the page says that it is under way."""
    write_a_claim(hasty, shop[1], "it creaks")
    sent: list[str] = []
    hasty.on("request", lambda asked: sent.append(asked.method))
    # An answer that leaves the page where it is, as one that is long in coming does.
    hasty.route("**/claims", lambda route: route.fulfill(status=204))
    hasty.evaluate("const b = document.querySelector('.claim-form .main'); b.click(); b.form.requestSubmit()")
    hasty.dblclick(".claim-form .main")
    hasty.wait_for_selector("form.claim-form[aria-busy]")
    assert sent == ["POST"]


def test_a_badge_is_not_printed_anew_by_reading_its_page_again(hasty: Page, shop: tuple[Record, str]):
    """The code is shown this once: loaded again, the page is that of people, and the printed badge still opens."""
    told: dict[str, str | float | bool] = {"person": "OWN", "secret": PINS["OWN"], "device": "desk"}
    assert hasty.context.request.post(f"{shop[1]}/sign-in", form=told).ok
    hasty.goto(f"{shop[1]}/people")
    hasty.select_option("#wearer", "WEL")
    hasty.fill("#printing", PINS["OWN"])
    hasty.click("text=Make the badge")
    hasty.wait_for_selector(".badge-card")
    with shop[0].reads() as reads:
        made = reads.credentials("WEL")["badge"]
    hasty.reload()
    assert hasty.inner_text("h1") == "Who can sign in"
    with shop[0].reads() as reads:
        assert reads.credentials("WEL")["badge"] == made


def test_what_was_too_long_stands_in_its_form_again(hasty: Page, shop: tuple[Record, str]):
    """Refused before anybody looked at it, it is shown on the page that says so, and the way back fills the form."""
    write_a_claim(hasty, shop[1], LONG)
    hasty.select_option("[name=quarter]", "q6")
    hasty.click(".claim-form .main")
    hasty.wait_for_selector(".error-summary")
    assert LONG.strip() in hasty.inner_text("main")
    hasty.click("text=Back to where you were")
    hasty.wait_for_selector("[role=status]")
    assert "What you sent was not taken." in hasty.inner_text("[role=status]")
    assert (hasty.input_value("[name=symptom]"), hasty.input_value("[name=quarter]")) == (LONG, "q6")
    hasty.goto(f"{shop[1]}/claims")
    assert hasty.input_value("[name=symptom]") == ""


def test_without_an_answer_the_way_back_fills_the_form(hasty: Page, shop: tuple[Record, str]):
    """The record is away for a moment: back on the form everything stands there, and it says that nothing is known."""
    write_a_claim(hasty, shop[1], "it clicks")
    hasty.route("**/claims", lambda route: route.fulfill(status=503, content_type="text/plain", body="away"), times=1)
    hasty.click(".claim-form .main")
    hasty.wait_for_function("document.body.innerText === 'away'")
    hasty.go_back()
    hasty.wait_for_selector("[role=status]")
    assert "No answer came to what you sent" in hasty.inner_text("[role=status]")
    assert hasty.input_value("[name=symptom]") == "it clicks"
    hasty.click(".claim-form .main")
    hasty.wait_for_url("**/claims/W-*")
    assert hasty.locator("[role=status]").count() == 0


def test_a_decision_refused_and_then_signed_out_comes_back(hasty: Page, shop: tuple[Record, str]):
    """A wrong PIN and then a session that is over: the sheet of the same finding is there, with choice and reason."""
    hasty.goto(f"{shop[1]}/desk/decide?key={quote(KEY, safe='')}")
    hasty.check("[name=choice][value=hold]", force=True)
    hasty.fill("[name=reason]", "wait for the look inside")
    hasty.fill("#secret", "000001")
    hasty.click("#sign .main")
    hasty.wait_for_selector(".error-summary")
    assert hasty.url.endswith(f"key={quote(KEY, safe='')}")
    hasty.context.clear_cookies()
    hasty.fill("#secret", PINS["LEA"])
    hasty.click("#sign .main")
    hasty.wait_for_selector(".door #secret")
    hasty.check("input[value=LEA]", force=True)
    hasty.fill("#secret", PINS["LEA"])
    hasty.click("button.main")
    hasty.wait_for_selector("#sign")
    assert hasty.is_checked("[name=choice][value=hold]")
    assert hasty.input_value("[name=reason]") == "wait for the look inside"
