"""The eight questions of an owner, each answered in the demo in at most four actions from the start page."""

import json
import time
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from demo_data.generator.folder import write_shop
from server.record.book_of_lines import Record, now_ms
from server.work.judging import judge_everything
from server.work.load_folder import load_folder
from server.work.set_pin import set_pin
from server.work.shop_folder import read_shop_folder
from tests.browser.chromium import PATIENCE_MS
from tests.browser.owner_walk import Owner
from tests.browser.serving import free_port, served

MOST_ACTIONS, MOST_S, MOST_STARTS = 4, 60.0, 30.0
FRAME, JOINT, CYLINDER, CLAIM = "MT-0041", "J06", "AR-0317", "W-26-004"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The small demo shop, loaded, judged and served."""
    folder = tmp_path_factory.mktemp("demo")
    write_shop(folder / "shop", "small")
    record = Record.open(f"sqlite:///{folder / 'record.sqlite3'}", folder)
    load_folder(record, read_shop_folder(folder / "shop"), now_ms())
    judge_everything(record)
    set_pin(record, "O01", "707001", now_ms())
    try:
        with served(record, folder, free_port()) as found:
            yield found
    finally:
        record.close()


@pytest.fixture(scope="module")
def signed_in(browser: Browser, address: str) -> Iterator[Owner]:
    context = browser.new_context(viewport={"width": 1280, "height": 800}, accept_downloads=True)
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    page.goto(f"{address}/sign-in")
    page.check("input[value='O01']", force=True)
    page.fill("#secret", "707001")
    page.click("button.main")
    page.wait_for_load_state()
    yield Owner(page, address)
    context.close()


@pytest.fixture
def owner(signed_in: Owner) -> Iterator[Owner]:
    """On the start page with nothing done; afterwards nothing took too long or too many steps."""
    began = time.monotonic()
    signed_in.start()
    started = time.monotonic()
    yield signed_in
    assert signed_in.actions <= MOST_ACTIONS
    # A machine that is too busy for the minute is too busy for the start page as well.
    assert time.monotonic() - started < max(MOST_S, MOST_STARTS * (started - began))


def test_1_everything_about_one_joint(owner: Owner):
    """Serial, then the joint on its picture or list: its passes, its values, its answers, one page."""
    owner.find(FRAME)
    owner.page.locator(f".in-short a[href='#joint-{JOINT}']").wait_for()
    owner.click(JOINT, exact=True)
    owner.actions += 1
    owner.page.locator(f"#joint-{JOINT} h2 a").click()
    owner.page.wait_for_load_state()
    assert owner.reads(f"{FRAME}/{JOINT}", "Attempt 1", "FT-0158", "36 ppm")


def test_2_which_other_frames_had_this_cylinder(owner: Owner):
    """What else, the cylinder's number, offered by its last digits: nine joints of two frames still in product."""
    owner.click("What else")
    owner.page.get_by_label("Which one").first.fill(CYLINDER[-3:])
    owner.page.locator(f"#known1 option[value='{CYLINDER}']").wait_for(state="attached")
    owner.type("Which one", CYLINDER)
    owner.enter()
    assert owner.reads("MT-0039", "MT-0041", "Shipped: 6 joints on 1 frame", "Back in the house: 3 joints")
    assert owner.reads("one-sided", "(mid-P): p 0.00699")


def test_3_what_lies_between_the_last_good_check_and_the_failed_one(owner: Owner):
    """From the same answer one click takes the line from its last good bead to the failed one."""
    owner.click("What else")
    owner.type("Which one", CYLINDER)
    owner.enter()
    owner.click("from its last good check to the failed one")
    assert owner.reads("Cut between the last good check", "14 Mar 2025 07:45", "19 Mar 2025 16:05", "MT-0037")


def test_4_where_they_are_and_who_has_them(owner: Owner):
    """The same answer says by place who has each frame and since when."""
    owner.click("What else")
    owner.type("Which one", CYLINDER)
    owner.enter()
    assert owner.reads("Noor Askvale", "Fri 28 Mar 2025")


def test_5_what_was_normal_for_this_joint(owner: Owner):
    """The joint's page shows its values among those of the same joint on sister frames."""
    owner.find(FRAME)
    owner.page.goto(f"{owner.address}/history/{FRAME}")
    owner.actions += 1
    owner.page.locator(f"#joint-{JOINT} h2 a").click()
    owner.page.wait_for_load_state()
    assert owner.reads("The same joint on sister frames", "sister frames at or below")


def test_6_what_was_open_when_it_was_released_and_who_signed(owner: Owner):
    """One link from the frame: six findings were open then, the signer's name and role."""
    owner.find(FRAME)
    owner.click("What was open, waived or late when it was released")
    assert owner.reads("Released by Tomas Wyre, quality lead", "Open then: 6", "Late: ", "Let out by N-NCR-25-006-2")


def test_7_what_was_decided_the_last_time_and_did_it_recur(owner: Owner):
    """From the claim to its causes: the nonconformity on the supported cause, and whether it recurred."""
    owner.click("Claims", exact=True)
    owner.click(CLAIM, exact=True)
    owner.click("What could be behind it, and what shares it")
    assert owner.reads("The record supports: 1", "Decided before on C2", "NCR-25-006", "Did it recur?")


def test_8_an_export_whose_recipient_can_check_it(owner: Owner):
    """The dossier's data names every line by its leaf hash, and the signed checkpoint they are sealed under."""
    owner.find(FRAME)
    owner.actions += 1
    link = owner.page.get_by_role("link", name="JSON", exact=True).get_attribute("href")
    told = json.loads(owner.page.request.get(f"{owner.address}{link}").body())
    assert told["lines"]
    assert all(len(each["leaf"]) == 64 for each in told["lines"])
    assert told["checkpoint"]


def test_the_claim_is_found_from_the_start_page(owner: Owner):
    """Two clicks to the claim: when the shop knew, the laboratory's figures, the decision both signed, who was told."""
    owner.click("Claims", exact=True)
    owner.click(CLAIM, exact=True)
    assert owner.reads("the shop knew", "HV0.5 312", "field action", "Noor Askvale", "16 CFR 1115")


def test_a_figure_that_is_not_there_is_not_read(owner: Owner):
    """The reading of the page bites: where other words stand already, words that stand nowhere are not found."""
    assert owner.reads("Serial")
    assert not owner.reads("Serial", "MT-9999", patience_ms=1000)
