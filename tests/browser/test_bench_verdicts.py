"""The tablet's light and the record's verdict: one value, one limit, one doubt, one word."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from server.judgement.book import THEN
from server.pages.bench.shell import build
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import PIN, WELDER

# Just inside and just beyond a limit, and where two doubts that are near each other would part.
_NEAR = (-0.2, -0.06, -0.045, -0.035, -0.02, -0.005, 0.0, 0.005, 0.02, 0.03, 0.045, 0.06)
_LOG = """
async ([folder, joint, near]) => {
  const { logRun } = await import(`${folder}/log_pass.js`);
  const app = strawlineBench, at = app.frame.joints.find((each) => each.id === joint);
  const kinds = ['read', 'counted', 'set', 'typed'];
  const card = app.card(at, 'fill');
  const counts = (line) => line.reading && line.reading !== 'gap' && (line.low || line.high);
  const asked = card.lines.filter((line) => kinds.includes(line.how) && counts(line));
  const values = {};
  for (const line of asked) {
    const limit = Number(line.high ?? line.low), value = limit * (1 + (line.high ? near : -near));
    values[line.reading] = line.reading === 'cup' ? String(Math.round(value)) : value.toFixed(3);
  }
  const draft = { ...app.draft(at), run: 'fill', quarters: ['q12', 'q3', 'q6', 'q9'], values };
  const { kept, verdicts } = await logRun(app, at, draft, asked, card);
  const given = verdicts.filter(({ line, value }) => line.reading && value !== null);
  const said = ({ value, word, proved, uncertainty }) => ({ value: Number(value), word, proved, uncertainty });
  return [kept.id, given.map((verdict) => [verdict.line.name, said(verdict)])];
}
"""


def logged(page: Page, joint: str, near: float) -> tuple[str, dict[str, Any]]:
    """Log a fill whose every value lies so near its limit; gives its id and what the tablet said of each."""
    entry, told = page.evaluate(_LOG, [f"/bench/app/{build()}", joint, near])
    return entry, dict(told)


def of_the_record(page: Page, shop: Shop, entry: str) -> dict[str, Any]:
    """What the record says of the joint's only pass, by the limit each value is held against."""
    limits = {rule.id: rule.limit for rule in THEN.rules if rule.limit and rule.limit_from == "procedure"}
    told = page.request.get(f"{shop.address}/api/verdicts?entry={entry}").json()["verdicts"]
    found = [each for each in told if each["question"] in limits and each["value"] is not None]
    names = ("value", "word", "proved", "uncertainty")
    return {limits[each["question"]]: {name: each[name] for name in names} for each in found}


@pytest.fixture(scope="module")
def page(browser: Browser, shop: Shop) -> Any:
    """A welder signed in at the first bench."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    yield page
    context.close()


def test_tablet_and_record_say_the_same_of_the_same_value(page: Page, shop: Shop) -> None:
    """Readings, counts and settings a hair inside and beyond their limits: one word, proof and doubt on both sides."""
    joints = page.evaluate("strawlineBench.frame.joints.map((joint) => joint.id)")
    told = [logged(page, joint, near) for joint, near in zip(joints, _NEAR, strict=False)]
    assert len(told) == len(_NEAR)
    Hand(page).in_the_record()
    last = told[-1][0]
    until(lambda: page.request.get(f"{shop.address}/api/verdicts?entry={last}").json()["judged"])
    words = set()
    for entry, by_tablet in told:
        by_record = of_the_record(page, shop, entry)
        both = {name: each for name, each in by_record.items() if name in by_tablet}
        assert len(both) >= 10
        for name, each in both.items():
            tablet_said = by_tablet[name]
            assert (name, tablet_said["value"], tablet_said["word"]) == (name, each["value"], each["word"])
            # What lies inside is told by its word alone; of what lies beyond the doubt decides whether it is proved.
            if each["word"] == "outside":
                assert (name, tablet_said["proved"]) == (name, each["proved"])
            if each["word"] in ("outside", "marginal"):
                assert tablet_said["uncertainty"] == pytest.approx(each["uncertainty"], rel=1e-9), name
            words.add(each["word"])
    assert words == {"within", "marginal", "outside"}
