"""The calculators in a real browser: the answer follows what is typed; without script the form asks for the page."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Shop

LIVE = "#result .sentence"


def purge(page: Page, shop: Shop) -> None:
    """Open the purge calculator on the second set-up of the first design."""
    page.goto(f"{shop.address}/calculators/purge")
    setup = page.locator("#setup option").nth(1).get_attribute("value")
    page.select_option("#setup", setup)
    page.wait_for_url("**setup=**")


def test_a_hole_changed_changes_the_answer_on_screen(browser: Browser, shop: Shop) -> None:
    """A vent narrowed by typing changes the slowest member's wait without the page being loaded anew."""
    page = browser.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda told: faults.append(told.text) if told.type == "error" else None)
    purge(page, shop)
    before = page.inner_text(LIVE)
    page.evaluate("window.same = true")
    vent = page.locator(".holes input").last
    vent.fill("1.5 mm")
    expect(page.locator(LIVE)).not_to_have_text(before)
    assert page.evaluate("window.same") is True
    assert "1.5+mm" in page.url
    assert page.inner_text("#spoken") == page.inner_text(LIVE)
    page.fill("#flow_l_per_min", "20 cfh")
    expect(page.locator("#result .curves")).to_be_visible()
    assert faults == []
    page.close()


def test_a_wrong_field_is_told_beside_it_and_goes_when_mended(browser: Browser, shop: Shop) -> None:
    """A slip is told at its field as it is typed, everything else stands, and mending it brings the answer back."""
    page = browser.new_page()
    page.goto(f"{shop.address}/calculators/hold-time")
    page.fill("#wall_mm", "0,9")
    expect(page.locator("#wall_mm-told")).to_contain_text("decimal point")
    assert page.get_attribute("#wall_mm", "aria-invalid") == "true"
    assert page.input_value("#wall_mm") == "0,9"
    page.fill("#wall_mm", "0.9")
    expect(page.locator("#result .big").first).to_contain_text("24 s")
    assert page.get_attribute("#wall_mm", "aria-invalid") is None
    page.close()


def test_one_measured_hold_changes_the_answer_on_screen(browser: Browser, shop: Shop) -> None:
    """Choosing that one hold was measured shows its field, and its figure narrows the band."""
    page = browser.new_page()
    page.goto(f"{shop.address}/calculators/hold-time")
    assert not page.is_visible("#measured_s")
    page.select_option("#known", "measured")
    page.fill("#measured_s", "20")
    expect(page.locator("#result .big").first).to_contain_text("22 s")
    page.close()


def test_without_script_the_form_asks_for_the_page(browser: Browser, shop: Shop) -> None:
    """With scripts off every field is shown, and the button gives the answer with the form still filled."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{shop.address}/calculators/heat-input")
    assert page.is_visible("#peak_a")
    page.select_option("#arc", "pulsed")
    page.fill("#peak_a", "100")
    page.click("button.main")
    assert page.input_value("#peak_a") == "100"
    assert "low" in page.inner_text("#result")
    context.close()


@pytest.mark.parametrize("path", ["", "/heat-input?arc=pulsed", "/purge", "/hold-time?wall_mm=x", "/dew-point"])
@pytest.mark.parametrize(("wide", "high"), [(1280, 800), (800, 1280)])
def test_anybody_can_use_it(browser: Browser, shop: Shop, path: str, wide: int, high: int) -> None:
    """axe finds nothing on any calculator, with an error shown too, and nothing stands out over the side."""
    page = browser.new_page(viewport={"width": wide, "height": high})
    page.goto(f"{shop.address}/calculators{path}")
    assert [each["id"] for each in Axe().run(page).response["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= wide
    page.close()


def test_printed_it_keeps_figures_caution_and_source(browser: Browser, shop: Shop) -> None:
    """On paper the menu and the button are gone; the inputs, the answer, the caution and the source stay."""
    page = browser.new_page()
    page.goto(f"{shop.address}/calculators/dew-point")
    page.emulate_media(media="print")
    assert not page.is_visible("nav")
    assert not page.is_visible("button.main")
    for part in ("#dew_point_c", "#result .big", ".caution", ".source", ".curves"):
        assert page.locator(part).first.is_visible()
    page.close()
