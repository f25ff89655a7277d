"""A seam with something open on it is not offered for release: offline by the card, online by the record."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from server.judgement.matters import matters
from server.work.signature import Signing
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, LEAD, PIN, WELDER
from tests.work.small_shop import sign

_WELD = """
async (grade) => {
  const app = strawlineBench, place = { frame: app.frame.frame, joint: 'J01', attempt: 1 };
  const joint = app.frame.joints.find((each) => each.id === 'J01'), card = app.card(joint, 'fill').digest;
  const quarters = ['q12', 'q3', 'q6', 'q9'];
  const shared = { ...place, card, torch_line: 'B1-T', purge_line: 'B1-P', setup: joint.setup, quarters };
  const values = { oxygen: { value: '12', unit: 'ppm', how: 'read', by: 'PA-1' } };
  await app.log({ kind: 'tack', ...shared, values: {} });
  await app.log({ kind: 'pass', run: 'root', ...shared, values });
  await app.log({ kind: 'pass', run: 'fill', sleeve: 'FT-0901', ...shared, values });
  const look = { side: 'outside', zone: 'bead', answer: 'graded', grade, moment: 'as welded' };
  await app.log({ kind: 'look', ...place, card, ...look });
  app.go({ screen: 'frame' });
}
"""
_FETCH = """
async () => {
  strawlineBench.sheet = await (await fetch('/api/bench/B1')).json();
  strawlineBench.known = null;
  strawlineBench.draw();
}
"""


@pytest.fixture(scope="module")
def hand(browser: Browser, shop: Shop) -> Iterator[Hand]:
    """A welder without the network who has welded a seam blue that another tube will hide."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    context.set_offline(True)
    page.evaluate(_WELD, 5)
    yield Hand(page)
    context.close()


def waits_for(hand: Hand) -> str:
    """Read why the release waits; empty where it is offered."""
    hand.tap("more-waiting")
    rows = [row for row in hand.page.locator(".waiting li").all_inner_texts() if row.startswith("J01 release")]
    hand.tap("what-next")
    return rows[0] if rows else ""


def test_the_red_light_holds_the_release_before_the_record_has_it(hand: Hand) -> None:
    """Offline the blue bead is outside by the card: the release is not offered, and the list says why."""
    assert hand.page.locator("[data-key='step-J01:released']").count() == 0
    assert "Weld colour" in waits_for(hand)
    assert "was grade 5 (blue)" in waits_for(hand)
    assert "the quality lead decides first" in waits_for(hand)


def test_the_release_screen_says_it_too_and_takes_it_all_the_same(hand: Hand) -> None:
    """Opened from the joint, the release says what holds the seam; who may look stays to choose."""
    hand.page.evaluate("strawlineBench.go({ screen: 'release', joint: 'J01' })")
    assert "Held. " in hand.page.locator(".blocked-note").first.inner_text()
    assert hand.control(f"by-{LEAD}").count() == 1
    hand.page.evaluate("strawlineBench.go({ screen: 'frame' })")


def test_the_records_open_finding_holds_it_until_it_is_decided(hand: Hand, shop: Shop) -> None:
    """Judged, the record's own words hold it; once the quality lead has decided, the release is offered."""
    hand.page.context.set_offline(False)
    hand.page.evaluate("strawlineBench.send()")
    hand.in_the_record()
    last = hand.entries()[-1]["id"]
    until(lambda: hand.page.request.get(f"{shop.address}/api/verdicts?entry={last}").json()["judged"])
    hand.page.evaluate(_FETCH)
    assert "the quality lead decides first" in waits_for(hand)
    with shop.record.reads() as reads:
        standing = matters(reads.findings(frame=FRAME), [])
    owner = Signing("O01", PIN, "desk", "owner", "decided")
    sign(shop.record, "accept", [each.finding.key for each in standing if each.keeps_the_frame], owner)
    hand.page.evaluate(_FETCH)
    assert waits_for(hand) == ""
    hand.tap("more-all")
    hand.page.evaluate("strawlineBench.go({ screen: 'frame', more: 'free' })")
    assert hand.page.locator("[data-key='step-J01:released']").count() == 1
