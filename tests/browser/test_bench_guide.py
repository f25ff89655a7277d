"""The guide: purge, hold and pause run down, call out when over on whatever screen, and yield to a reading."""

import time
from collections.abc import Iterator
from typing import Any
from zlib import crc32

import pytest
from playwright.sync_api import Browser

from server.work.reckoned import is_reckoning
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.scripts import run, script_page, swapped
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, PIN, WELDER

_LISTEN = """
window.shaken = 0; window.sounded = 0;
Navigator.prototype.vibrate = () => { window.shaken += 1; return true; };
window.AudioContext = class {
  currentTime = 0; destination = {};
  close() {}
  createOscillator() { window.sounded += 1; return {frequency: {}, connect() {}, start() {}, stop() {}}; }
};
"""
_PURGE_ON = """
async (ago_s) => {
  await strawlineBench.log({ kind: 'purge', frame: strawlineBench.frame.frame, setup: 'LST-S0', line: 'B1-P', act: 'on',
    happened: new Date(Date.now() - ago_s * 1000).toISOString(),
    values: { pre_purge_flow: { value: '7', unit: 'L/min', how: 'read', by: 'FM-1' } } });
  strawlineBench.go({ screen: 'frame' });
}
"""
_PASS = """
async ([joint, quarters, ago_s]) => {
  await strawlineBench.log({ kind: 'pass', run: 'root', frame: strawlineBench.frame.frame, joint, quarters, attempt: 1,
    torch_line: 'B1-T', sleeve: 'none', happened: new Date(Date.now() - ago_s * 1000).toISOString() });
  strawlineBench.go({ screen: 'frame' });
}
"""
# The whole time is left while the screen is looked at, enough on any machine; then the clock of the tablet is set on.
_LATER = """
(s) => { const real = Date; globalThis.Date = class extends real {
  constructor(...told) { told.length ? super(...told) : super(real.now() + s * 1000); }
  static now() { return real.now() + s * 1000; } }; }
"""
ALL = ["q12", "q3", "q6", "q9"]


@pytest.fixture
def hand(browser: Browser, shop: Shop, request: pytest.FixtureRequest) -> Iterator[Hand]:
    """A welder signed in on a tablet that can be heard and felt, its sheet with all pauses reckoned."""
    context = tablet(browser)
    context.add_init_script(_LISTEN)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, f"TAB-{crc32(request.node.name.encode()) % 10**6}")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    all_reckoned()
    page.reload()
    until(lambda: page.evaluate("globalThis.strawlineBench?.sheet?.frames[0].joints[0].pause != null"))
    yield Hand(page)
    context.close()


def all_reckoned() -> None:
    """Some twenty seams are reckoned beside the first sheet; a busy machine takes its time."""
    last = time.monotonic() + 180
    while is_reckoning():
        assert time.monotonic() < last
        time.sleep(0.2)


def felt(hand: Hand) -> list[int]:
    found: list[int] = hand.page.evaluate("[window.shaken, window.sounded]")
    return found


def ask(hand: Hand, expression: str) -> Any:
    """Ask the shipped reckoning about the running bench."""
    folder = hand.page.evaluate("document.querySelector('script[type=module]').src.replace(/bench.js$/, '')")
    return hand.page.evaluate(f"import('{folder}guide_times.js').then((it) => it.{expression})")


def test_the_end_of_the_purge_is_called_out_on_any_screen(hand: Hand) -> None:
    """When card's time and slowest member's are both over the tablet sounds, shakes and says so, once."""
    now = "{setup: 'LST-S0', since: new Date().toISOString(), flow: '7'}"
    times = ask(hand, f"purgeTimes(strawlineBench, {now})")
    hand.page.evaluate(_PURGE_ON, 0)
    hand.tap("more-all")
    assert "left" in hand.control("foot-purge").inner_text()
    assert felt(hand) == [0, 0]
    hand.page.evaluate(_LATER, max(times["minutes"], times["slow"]["minutes"]) * 60)
    hand.page.wait_for_selector(".called:has-text('Purge time is over: now the reading decides')")
    hand.page.wait_for_timeout(2500)
    assert felt(hand) == [1, 1]
    assert "read it now" in hand.control("foot-purge").inner_text()


def test_the_slowest_member_is_named_until_a_reading_takes_its_place(hand: Hand) -> None:
    """The panel names the member that clears last; once oxygen is read it says the value, and that it decides."""
    hand.page.evaluate(_PURGE_ON, 0)
    hand.tap("foot-purge")
    assert "clears last, after about" in hand.page.locator(".guide").inner_text()
    hand.key_in("41")
    hand.tap("take")
    hand.page.wait_for_selector(".guide:has-text('Read 41 ppm')")
    told = hand.page.locator(".guide").inner_text()
    assert "outside" in told
    assert "The reading decides" in told
    assert "clears last" not in told
    assert "read 41 ppm" in hand.control("foot-purge").inner_text()
    assert ask(hand, "calls(strawlineBench)") == []
    hand.tap("back", "step-J01:tacked", "run-root")
    assert "41 ppm" in hand.page.locator(".red-light").inner_text()
    assert "Not yet. The card’s purge time:" in hand.page.locator(".blocked-note").first.inner_text()
    hand.page.evaluate(_LATER, 3600)
    hand.page.evaluate("strawlineBench.draw()")
    assert hand.page.locator(".blocked-note:has-text('purge time')").count() == 0


def test_the_end_of_the_hold_is_called_out_after_a_reload(hand: Hand) -> None:
    """The hold counts from the arc that was logged, so a reload in between loses nothing."""
    joint = hand.page.evaluate("strawlineBench.frame.joints.find((each) => each.id === 'J03')")
    hand.page.evaluate(_PASS, ["J03", ALL, 0])
    hand.page.reload()
    hand.page.wait_for_selector(".frame-screen h1")
    hand.page.evaluate(_LATER, joint["hold"]["high"])
    hand.page.wait_for_selector(".called:has-text('Hold on J03 is over')")
    assert felt(hand) == [1, 1]


def test_the_pause_runs_down_and_the_next_quarter_is_across(hand: Hand) -> None:
    """After 12 o'clock the seam's screen counts the pause, names 6 o'clock, as advice; a thermometer overrides it."""
    hand.page.evaluate(_PASS, ["J08", ["q12"], 5])
    hand.tap("more-all", "joint-J08", "run-root")
    note = hand.page.locator(".pause-note").inner_text()
    assert "Pause" in note
    assert "left" in note
    assert "Next 6 o’clock" in note
    assert "Advice only" in note
    hand.tap("run-fill")
    hand.tap("ask-interpass")
    hand.key_in("48")
    assert "Metal read 48 °C" in hand.page.locator(".pause-note").inner_text()


def test_the_advice_gives_no_verdict(hand: Hand) -> None:
    """Nothing reckoned is sealed with an entry: a pass logged within the pause carries no word about it."""
    hand.page.evaluate(_PASS, ["J09", ["q12"], 5])
    hand.page.evaluate(_PASS, ["J09", ["q6"], 0])
    entry = hand.entries()[-1]
    assert not {"pause", "hold", "advice", "verdict"} & set(entry)
    assert entry["frame"] == FRAME


_SCENE = """
const at = Date.parse('2026-01-05T10:00:00Z');
Date.now = () => at + given.after_s * 1000;
const pause = {order: ['q12', 'q6', 'q3', 'q9'], between_s: 90, lap_s: {high: 200}, limit_c: 65};
const joint = {id: 'J', setup: 'S', runs: ['root', 'fill'], hold: {high: 40}, pause};
const lows = [['pre_purge', '5'], ['pre_purge_volumes', '10'], ['post_flow', '18']].map(([name, low]) => ({name, low}));
const lines = [...lows, {name: 'oxygen', reading: 'oxygen', runs: [], high: '20'}];
const purge = {id: 'p', setup: 'S', line: 'L', since: '2026-01-05T10:00:00.000Z', flow: given.flow};
const setups = [{id: 'S', volume_l: 1.4, forecast: given.forecast ?? []}];
const app = {sheet: {}, frame: {frame: 'F', joints: [joint], setups}, clock: {device: 'T'},
  purge: given.purge === false ? null : purge, card: () => ({lines}), entries: () => given.entries ?? [],
  progress: () => ({joints: {J: {runs: {root: given.done ?? []}}}})};
return it.calls(app).map(({name, until}) => [name.split(' ')[0], until === null ? null : (until - at) / 1000]);
"""


@pytest.mark.parametrize(
    ("given", "times"),
    [
        ({"flow": "7"}, [["purge", 300]]),
        ({"flow": "2"}, [["purge", 420]]),
        ({"flow": "7", "forecast": [{"flow_l_per_min": 7, "slowest": "stay", "minutes": 22}]}, [["purge", 1320]]),
        ({"flow": "7", "forecast": [{"flow_l_per_min": 7, "slowest": "stay", "minutes": None}]}, [["purge", 300]]),
    ],
)
def test_the_purge_is_ready_when_the_slowest_of_all_is(
    browser: Browser, given: dict[str, Any], times: list[Any]
) -> None:
    """The card's minutes, its volumes at the flow set, the slowest member: the longest of them counts."""
    page = script_page(browser)
    assert run(page, "guide_times.js", _SCENE, given | {"after_s": 0}) == times
    page.close()


def a_pass(quarters: list[str]) -> dict[str, Any]:
    at = "2026-01-05T10:00:00.000Z"
    about = {"id": "x", "kind": "pass", "frame": "F", "joint": "J", "run": "root", "device": "T"}
    return about | {"quarters": quarters, "happened": at}


@pytest.mark.parametrize(("quarters", "pause_s"), [(["q12"], 90), (ALL, 200)])
def test_a_whole_lap_pauses_longer_than_a_quarter(browser: Browser, quarters: list[str], pause_s: int) -> None:
    """Hold is the longer of post-flow and band; the pause is the quarter's or the lap's by what was welded."""
    page = script_page(browser)
    scene = {"purge": False, "entries": [a_pass(quarters)], "done": quarters, "after_s": 0}
    assert run(page, "guide_times.js", _SCENE, scene) == [["hold", 40], ["pause", pause_s]]
    page.close()


def test_a_guide_that_forgets_the_slowest_member_is_caught(browser: Browser) -> None:
    """Control: reckoning the card's time alone calls the purge ready too early."""
    page = script_page(browser, {"guide_times.js": swapped("Math.max(minutes, slow?.minutes ?? 0)", "minutes")})
    given = {"flow": "7", "forecast": [{"flow_l_per_min": 7, "slowest": "stay", "minutes": 22}], "after_s": 0}
    assert run(page, "guide_times.js", _SCENE, given) != [["purge", 1320]]
    page.close()
