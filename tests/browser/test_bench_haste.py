"""Hands quicker than the tablet: one tap is one entry, who went elsewhere stays there, nothing stands in two places."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Route

from tests.browser.hand import Hand
from tests.browser.link import Link
from tests.browser.scripts import run, script_page, swapped
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, LEAD, OTHER_FRAME, PIN

_KEPT_BY_THEN_MS = 250
_REMEMBER_THE_TAP = "addEventListener('click', (tap) => { window.tap = tap; }, { capture: true, once: true })"
_TAP_THERE_AGAIN = """
(later_ms) => {
  const { clientX, clientY, detail, timeStamp } = window.tap;
  const again = new MouseEvent('click', { clientX, clientY, detail, bubbles: true });
  Object.defineProperty(again, 'timeStamp', { value: timeStamp + later_ms });
  document.elementFromPoint(clientX, clientY).dispatchEvent(again);
}
"""
# Entries are kept as quickly as ever, and told so only when the proof lets go.
_KEPT_SLOWLY = """
const { log } = strawlineBench;
const held = new Promise((letGo) => { window.letGo = letGo; });
strawlineBench.log = async (...given) => {
  const kept = await log.apply(strawlineBench, given);
  await held;
  return kept;
};
null;
"""
_LOGGED_THERE = """
const kept = [...strawlineBench.taken, ...strawlineBench.waiting].at(-1);
window.there = { kept, verdicts: [], card: null };
strawlineBench.result = window.there;
null;
"""
_TOUCHES = """
const said = [];
const [button, other] = ['button', 'button'].map((tag) => document.body.appendChild(document.createElement(tag)));
const act = () => { said.push(given.name); return given.work; };
for (const each of [button, other]) it.does(each, 'click', (tap) => it.actOnce(tap, act));
const touch = (name, ms, x = 100, detail = 1, on = button) => {
  const tap = new MouseEvent('click', { clientX: x, clientY: 100, detail });
  Object.defineProperty(tap, 'timeStamp', { value: ms });
  given.name = name;
  on.dispatchEvent(tap);
};
let over;
given.work = new Promise((done) => { over = done; });
touch('first', 1000);
touch('shaken', 1200);
touch('impatient', 9000);
touch('elsewhere', 9050, 200);
over();
await given.work;
given.work = null;
touch('meant', 9800, 200);
touch('key', 10400, 0, 0);
touch('key held', 10430, 0, 0);
touch('other key', 10460, 0, 0, other);
return said;
"""
_WATCHED = """
window.lost = [];
for (const name of ['waiting', 'taken']) {
  let kept = strawlineBench[name];
  Object.defineProperty(strawlineBench, name, { get: () => kept, set: (now) => { kept = now; queueMicrotask(look); } });
}
function look() {
  const here = [...strawlineBench.waiting, ...strawlineBench.taken].map(({ seq }) => seq);
  if (!here.includes(1)) window.lost.push(here);
}
"""


def touched(browser: Browser, old: str, new: str) -> Any:
    """Which of some touches acted, by the script as shipped or altered."""
    page = script_page(browser, {"tap.js": swapped(old, new)})
    said = run(page, "tap.js", _TOUCHES, {})
    page.context.close()
    return said


def test_one_tap_acts_once(browser: Browser) -> None:
    """In one place at once, or while the first is under way, or by a key held down: once; elsewhere or later: again."""
    meant = ["first", "elsewhere", "meant", "key", "other key"]
    assert touched(browser, "", "") == meant
    assert touched(browser, "since < SAME_TAP_MS", "false") != meant
    assert touched(browser, "tapped.underWay ||", "") != meant
    assert touched(browser, "< SAME_PLACE_PX", "< 1000") != meant
    assert touched(browser, "tap.detail === 0 ?", "false ?") != meant


def test_a_glove_that_shakes_grades_one_look(hand: Hand) -> None:
    """After the first look the swatches of the next stand in its place; the same tap does not grade that one too."""
    hand.tap("step-J01:tacked")
    for _ in ("tack", "root", "fill"):
        hand.log()
        hand.tap(*(["again"] if hand.control("again").count() else []))
    hand.page.evaluate(_REMEMBER_THE_TAP)
    hand.control("grade-0").tap()
    until(lambda: grades(hand) == [0])
    hand.wait_until_drawn()
    hand.page.evaluate(_TAP_THERE_AGAIN, 200)
    hand.page.wait_for_timeout(_KEPT_BY_THEN_MS)
    assert grades(hand) == [0]
    hand.page.evaluate(_TAP_THERE_AGAIN, 2000)
    until(lambda: grades(hand) == [0, 0])


def grades(hand: Hand) -> list[int]:
    """What was graded on this tablet."""
    return [entry["grade"] for entry in hand.entries() if entry["kind"] == "look"]


@pytest.mark.parametrize(
    ("there", "acts"),
    [
        ("{ screen: 'clean', joint: 'J07' }", "wiped with solvent"),
        ("{ screen: 'purge' }", "purge-on"),
        ("{ screen: 'bead', line: 'B1-P', result: 'good' }", "grade-1"),
        ("{ screen: 'cylinder', line: 'B1-P' }", "AR-0903"),
        ("{ screen: 'rod-ends', sleeve: 'FT-0903', filler_class: 'ERTi-2' }", "ERTi-2"),
        ("{ screen: 'cut-out', joint: 'J07', quarters: ['q12'] }", "cut out"),
        ("{ screen: 'frame' }", "problem"),
    ],
)
def test_who_went_elsewhere_while_it_was_kept_stays_there(hand: Hand, there: str, acts: str) -> None:
    """Nothing changes under a glove: the screen gone to stands when what was tapped before is kept."""
    hand.page.evaluate(f"strawlineBench.go({there})")
    hand.page.evaluate(_KEPT_SLOWLY)
    hand.tap(acts, "foot-log")
    kept = hand.kept()
    hand.page.evaluate("window.letGo()")
    until(lambda: hand.kept() > kept or hand.page.locator("[data-key=state]:has-text('All in the record')").count())
    hand.wait_until_drawn()
    assert hand.page.evaluate("strawlineBench.where.screen") == "log"


def test_what_is_put_right_meanwhile_stays_put_right(hand: Hand) -> None:
    """Taken back while somebody went on to another joint: its own draft comes back to it, the other's is untouched."""
    hand.tap("more-all", "joint-J09")
    hand.key_in("0.1")
    hand.log()
    hand.page.evaluate(_KEPT_SLOWLY)
    hand.tap("take-back")
    hand.page.evaluate("strawlineBench.go({ screen: 'joint', joint: 'J10' })")
    hand.page.evaluate(_LOGGED_THERE)
    hand.page.evaluate("window.letGo()")
    hand.in_the_record()
    assert hand.page.evaluate("strawlineBench.result === window.there")
    assert [entry["kind"] for entry in hand.entries()] == ["gap", "tack", "correction", "correction"]
    assert hand.page.evaluate("strawlineBench.draft().values") == {}
    assert hand.page.evaluate("strawlineBench.where.joint") == "J10"


def test_a_release_is_of_the_seam_the_pin_was_given_for(hand: Hand) -> None:
    """While the PIN is asked about, somebody turns to another frame: what is released is what was declared, once."""
    asked: list[Route] = []

    def hold(route: Route) -> None:
        asked.append(route)

    hand.page.route("**/api/prove", hold)
    hand.page.evaluate(f"strawlineBench.go({{ screen: 'release', joint: 'J02', frame: '{FRAME}' }})")
    hand.tap(f"by-{LEAD}")
    for digit in PIN:
        hand.tap(f"pin-{digit}")
    hand.tap("release-now")
    until(lambda: hand.page.evaluate("1") and asked)
    assert hand.control("release-now").is_disabled()
    hand.page.evaluate(f"strawlineBench.go({{ screen: 'frame', frame: '{OTHER_FRAME}' }})")
    asked[0].continue_()
    until(lambda: [entry for entry in hand.entries() if entry["kind"] == "release"])
    (release,) = [entry for entry in hand.entries() if entry["kind"] == "release"]
    assert (release["frame"], release["joint"], release["who"]) == (FRAME, "J02", LEAD)
    assert hand.page.evaluate("strawlineBench.where.frame") == OTHER_FRAME
    assert len(asked) == 1


def test_an_entry_on_its_way_into_the_record_is_never_nowhere(hand: Hand) -> None:
    """Whenever what waits or what was taken changes on the tablet, the entry stands in one of the two."""
    link = Link(hand.page.context)
    link.cut = True
    hand.page.evaluate("strawlineBench.log({ kind: 'problem', words: 'kept once', what: 'other' })")
    hand.page.evaluate(_WATCHED)
    link.cut = False
    hand.page.evaluate("strawlineBench.send()")
    hand.in_the_record()
    assert hand.page.evaluate("window.lost") == []


def test_a_sheet_that_was_asked_for_earlier_and_comes_later_is_left(hand: Hand) -> None:
    """Two askings answered the other way round: what stands is what the later one told."""
    asked: list[Route] = []

    def hold(route: Route) -> None:
        asked.append(route)

    sheet = hand.page.evaluate("strawlineBench.sheet")
    hand.page.route("**/api/bench/*", hold)
    hand.page.evaluate("['online', 'online'].forEach((kind) => dispatchEvent(new Event(kind)))")
    until(lambda: hand.page.evaluate("1") and len(asked) > 1)
    for route, told in ((asked[1], "later"), (asked[0], "earlier")):
        with hand.page.expect_response("**/api/bench/*"):
            route.fulfill(json={**sheet, "cut_off_bar": told})
        until(lambda: hand.page.evaluate("strawlineBench.asking") is False)
        hand.wait_until_drawn()
        assert hand.page.evaluate("strawlineBench.sheet.cut_off_bar") == "later"
