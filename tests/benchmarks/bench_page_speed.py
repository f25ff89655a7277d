"""How fast the bench opens and answers on a slow tablet, beside an empty page in the same run.

Run `python -m tests.benchmarks.bench_page_speed`; with `--write` the figures are added to `docs/measurements.md`.
"""

import os
import sys
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from typing import NamedTuple

from playwright.sync_api import Browser, CDPSession, Page

from tests.browser.chromium import chromium, sign_in, tablet
from tests.browser.hand import Hand
from tests.browser.serving import free_port, served
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import PIN, WELDER, open_shop

RUNS = 7
SLOWER = 4
_SETTLED_MS = 400
_MEASUREMENTS = Path(__file__).resolve().parents[2] / "docs" / "measurements.md"
_WATCH = """
window.slowest = 0; window.painted = 0; window.answered = 0;
let tapped = 0;
addEventListener('click', (tap) => { tapped = tap.timeStamp; }, true);
const element = (node) => node.nodeType === Node.ELEMENT_NODE ? node : node.parentElement;
const onScreen = ({ target, addedNodes }) => element(target)?.closest('.screen')
  ? !element(target).closest('.countdown') : [...addedNodes].some((each) => each.matches?.('.screen'));
new MutationObserver((changes) => {
  if (!tapped || !changes.some(onScreen)) return;
  const since = tapped;
  tapped = 0;
  requestAnimationFrame(() => setTimeout(() => {
    window.answered = Math.max(window.answered, performance.now() - since); }));
}).observe(document, {childList: true, characterData: true, subtree: true});
new PerformanceObserver((list) => { for (const each of list.getEntries()) {
  window.slowest = Math.max(window.slowest, each.duration); } }).observe({type: 'event', durationThreshold: 16});
new PerformanceObserver((list) => { window.painted = list.getEntries().at(-1).startTime; })
  .observe({type: 'largest-contentful-paint', buffered: true});
"""
_EMPTY = "<!doctype html><html lang=en><title>empty</title><h1>empty</h1><button data-key=tap>tap</button>"
_WELDED = """
async () => {
  const app = strawlineBench, place = { frame: app.frame.frame, joint: 'J03', attempt: 1 };
  const all = { ...place, torch_line: 'B1-T', quarters: ['q12', 'q3', 'q6', 'q9'] };
  await app.log({ kind: 'tack', ...all });
  await app.log({ kind: 'pass', run: 'root', sleeve: 'none', ...all });
}
"""


class Speed(NamedTuple):
    """Milliseconds of each run, the empty page's beside the bench's; bytes of a first and a repeated visit."""

    painted_ms: list[float]
    empty_painted_ms: list[float]
    slowest_ms: list[float]
    empty_slowest_ms: list[float]
    answered_ms: list[float]
    busy_ms: list[float]
    empty_busy_ms: list[float]
    first_bytes: int
    repeat_bytes: int


def page_speed(browser: Browser, address: str) -> Speed:
    """Measure a served bench: seven openings and seven passes by three taps, an empty page after each."""
    context = tablet(browser)
    context.set_default_timeout(60_000)
    page = context.new_page()
    page.add_init_script(_WATCH)
    context.route("**/empty-page", lambda route: route.fulfill(content_type="text/html", body=_EMPTY))
    sign_in(page, address, WELDER, PIN)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null && strawlineBench.sheet !== null"))
    first, repeat = _weighed(browser, address), _bytes_of(page, lambda: _open(page, address))
    empty = context.new_page()
    empty.add_init_script(_WATCH)
    busy, empty_busy = (_slowed(context.new_cdp_session(each)) for each in (page, empty))
    opened = [(_painted(page, lambda: _open(page, address)), _painted(empty, lambda: _blank(empty, address)))
              for _ in range(RUNS)]  # fmt: skip
    page.evaluate(_WELDED)
    taps = [(*_pass_by_three_taps(page, busy), *_tap_on_nothing(empty, empty_busy)) for _ in range(RUNS)]
    context.close()
    painted, empty_painted = (list(each) for each in zip(*opened, strict=True))
    slowest, drawn, worked, empty_slowest, empty_worked = (list(each) for each in zip(*taps, strict=True))
    return Speed(painted, empty_painted, slowest, empty_slowest, drawn, worked, empty_worked, first, repeat)


def _slowed(session: CDPSession) -> Callable[[], float]:
    """Slow a page down; gives what tells the processor time its thread has used, which other work hardly stretches."""
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    session.send("Performance.enable", {"timeDomain": "threadTicks"})

    def busy_ms() -> float:
        told = {each["name"]: each["value"] for each in session.send("Performance.getMetrics")["metrics"]}
        return float(told["TaskDuration"]) * 1000

    return busy_ms


def _open(page: Page, address: str) -> None:
    page.goto(f"{address}/bench")
    page.wait_for_selector(".frame-screen h1")


def _blank(page: Page, address: str) -> None:
    page.goto(f"{address}/empty-page")
    page.wait_for_selector("h1")


def _painted(page: Page, opening: Callable[[], None]) -> float:
    page.bring_to_front()
    opening()
    page.wait_for_timeout(_SETTLED_MS)
    found: float = page.evaluate("window.painted")
    return found


def _pass_by_three_taps(page: Page, busy_ms: Callable[[], float]) -> tuple[float, float, float]:
    """Joint, two digits, log, colour: slowest event, longest until a new screen stood, processor time of it all."""
    page.bring_to_front()
    page.evaluate("strawlineBench.drafts = {}; strawlineBench.go({ screen: 'frame', more: 'all' })")
    hand = Hand(page)
    hand.tap("joint-J03", "run-fill")
    page.wait_for_timeout(_SETTLED_MS)
    page.evaluate("strawlineBench.go({ screen: 'frame', more: 'all' }); window.slowest = 0; window.answered = 0")
    before = busy_ms()
    hand.tap("joint-J03")
    hand.key_in("12")
    hand.log()
    page.wait_for_timeout(60)
    hand.tap("grade-0")
    page.wait_for_timeout(_SETTLED_MS)
    slowest, drawn = page.evaluate("[window.slowest, window.answered]")
    return slowest, drawn, busy_ms() - before


def _tap_on_nothing(page: Page, busy_ms: Callable[[], float]) -> tuple[float, float]:
    page.bring_to_front()
    before = busy_ms()
    page.evaluate("window.slowest = 0")
    for _ in range(3):
        page.tap("[data-key=tap]")
        page.wait_for_timeout(60)
    page.wait_for_timeout(_SETTLED_MS)
    found: float = page.evaluate("window.slowest")
    # What is quicker than the browser tells of counts as the least it tells of.
    return max(found, 16.0), busy_ms() - before


def _weighed(browser: Browser, address: str) -> int:
    """Count what a tablet that was never here fetches of the page, as sent, without what it asks of the record."""
    context = tablet(browser, service_workers="block")
    page = context.new_page()
    sign_in(page, address, WELDER, PIN)
    emptied = context.new_cdp_session(page)
    emptied.send("Network.enable")
    emptied.send("Network.clearBrowserCache")
    emptied.send("Network.setCacheDisabled", {"cacheDisabled": True})
    counted = _bytes_of(page, lambda: _open(page, address))
    context.close()
    return counted


def _bytes_of(page: Page, opening: Callable[[], None]) -> int:
    session = page.context.new_cdp_session(page)
    session.send("Network.enable")
    addresses: dict[str, str] = {}
    sizes: dict[str, float] = {}
    served_here: set[str] = set()

    def answered(told: dict[str, object]) -> None:
        answer: dict[str, object] = told["response"]  # type: ignore[assignment]
        addresses[str(told["requestId"])] = str(answer["url"])
        if answer.get("fromServiceWorker") or answer.get("fromDiskCache"):
            served_here.add(str(told["requestId"]))

    session.on("Network.responseReceived", answered)
    session.on("Network.loadingFinished", lambda told: sizes.update({told["requestId"]: told["encodedDataLength"]}))
    opening()
    page.wait_for_timeout(_SETTLED_MS)
    session.detach()
    counts = (id for id in sizes if id not in served_here and "/api/" not in addresses.get(id, ""))
    return round(sum(sizes[id] for id in counts if not addresses.get(id, "").endswith("/sw.js")))


def told(speed: Speed) -> str:
    """Write the figures as a table."""
    rows = (
        ("largest paint of a repeated visit", speed.painted_ms, speed.empty_painted_ms, "1000"),
        ("slowest event of a pass by three taps", speed.slowest_ms, speed.empty_slowest_ms, "100"),
        ("processor time of that pass, of three taps on nothing", speed.busy_ms, speed.empty_busy_ms, ""),
    )
    drawn = f"| longest until what a tap leads to stands there, saving included | {median(speed.answered_ms):.0f} | | |"
    lines = [f"| {what} | {median(ours):.0f} | {median(empty):.0f} | {goal} |" for what, ours, empty, goal in rows]
    head = "| at a quarter of the speed, median of seven | bench [ms] | empty page [ms] | goal [ms] |"
    sent = f"First visit {speed.first_bytes / 1000:.0f} kB as sent (goal 150), a repeated one {speed.repeat_bytes} B."
    return "\n".join((head, "|---|---:|---:|---:|", *lines, drawn, "", sent))


def _main() -> None:
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        record = open_shop(folder)
        try:
            with served(record, folder, free_port()) as address, chromium() as browser:
                found = told(page_speed(browser, address))
        finally:
            record.close()
    print(found)
    if "--write" in sys.argv[1:]:
        day = datetime.now(UTC).date().isoformat()
        load = f"{day}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}"
        with _MEASUREMENTS.open("a", encoding="utf-8") as kept:
            command = "`python -m tests.benchmarks.bench_page_speed --write`"
            kept.write(f"\n## The bench's page (`server/pages/bench`), {day}\n\n{command}, {load}.\n\n{found}\n")


if __name__ == "__main__":
    _main()
