"""Two hundred shifts over a bad link, the shipped scripts against the real application, step by step as the model."""

from collections.abc import Iterator
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from playwright.sync_api import Browser, Page, Route

from server.pages.bench.shell import build
from server.record.lines import FIRST_STATES
from tests.browser.conftest import Shop
from tests.browser.outbox_model import Model
from tests.browser.schedules import SCHEDULES, Log, Restart, Send, Step
from tests.browser.scripts import BENCH, swapped
from tests.browser.waiting import until

_names = count()
_OPEN = """
async ([folder, device]) => {
  const [{openStore}, {makeClock}, outbox, {makeSender}] = await Promise.all(
    ['store.js', 'clock.js', 'outbox.js', 'sender.js'].map((name) => import(`${folder}/${name}`)));
  const store = await openStore(device);
  globalThis.bench = {store, outbox, clock: makeClock(device), sent: 0,
    tabs: [0, 1].map(() => makeSender(store, (link) => { globalThis.bench.link = link.is; }, {after: () => null})),
    restart() { this.clock = makeClock(device); }};
}
"""
_LOG = """
async ([times, kind]) => {
  for (let n = 0; n < times; n += 1) {
    await bench.outbox.save(bench.store, bench.clock, {kind, who: 'W01', frame: 'F-1', joint: 'J1', method: 'wiped'});
  }
}
"""
_SEND = "async (tabs) => { await Promise.all(bench.tabs.slice(0, tabs).map((tab) => tab.wake())); }"
_STATE = """
async () => {
  const {waiting, taken, told} = await bench.outbox.keptNow(bench.store);
  return [waiting, taken, told].map((kept) => kept.map(({seq}) => seq));
}
"""


class Fated:
    """What the link does with each request of the step at hand."""

    def __init__(self) -> None:
        self.fate = "arrives"

    def __call__(self, route: Route) -> None:
        if self.fate == "arrives":
            route.continue_()
        elif self.fate == "request lost":
            route.abort("internetdisconnected")
        elif self.fate == "answer lost":
            route.fetch()
            route.abort("connectionreset")
        else:
            route.fetch()
            route.fulfill(status=503, json={"detail": "try again"})


class Driven:
    """A page on the shop's own address that runs the shipped outbox and sender, one schedule after the other."""

    def __init__(self, page: Page, shop: Shop) -> None:
        self.page, self.shop, self.link = page, shop, Fated()
        page.route("**/api/deliveries", self.link)
        page.goto(f"{shop.address}/sign-in")

    def carry_out(self, schedule: list[Step]) -> tuple[Model, list[int]]:
        """Run a schedule; after every step what waits, was taken and was told is as the model has it."""
        device, model = f"TAB-J{next(_names)}", Model()
        self.page.evaluate(_OPEN, [f"/bench/app/{build()}", device])
        for step in schedule:
            self._one(step, model)
            assert self.page.evaluate(_STATE) == [model.waiting, sorted(model.taken), sorted(model.told)]
            assert model.nothing_is_lost()
        return model, self.in_the_record(device)

    def _one(self, step: Step, model: Model) -> None:
        if isinstance(step, Log):
            for _ in range(step.times):
                model.log(step.clear)
            self.page.evaluate(_LOG, [step.times, "clean" if step.clear else "never heard of"])
        elif isinstance(step, Send):
            self.link.fate = step.fate
            model.send(step.fate)
            self.page.evaluate(_SEND, step.tabs)
        elif isinstance(step, Restart):
            self.page.evaluate("bench.restart()")

    def in_the_record(self, device: str) -> list[int]:
        """The counts of one tablet's entries in the order the record took them."""
        with self.shop.record.reads() as reads:
            last = reads.last_position()
            lines = reads.lines_between(max(1, last - 2000), last)
        own = [line for line in lines if line.device == device and line.state in FIRST_STATES]
        return [int(line.id.rpartition(":")[2]) for line in own]


@pytest.fixture(scope="module")
def driven(browser: Browser, shop: Shop) -> Iterator[Driven]:
    """The shipped scripts on a page of the application."""
    context = browser.new_context()
    yield Driven(context.new_page(), shop)
    context.close()


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(schedule=SCHEDULES)
def test_the_shipped_scripts_do_as_the_model_does(driven: Driven, schedule: list[Step]) -> None:
    """Logging, sending by one tab or two, losing requests and answers, restarting: outbox, receipts, record agree."""
    model, record = driven.carry_out(schedule)
    assert record == model.record


def test_a_script_that_settles_without_receipts_is_caught(browser: Browser, shop: Shop) -> None:
    """Control: with the key check off any answer empties the outbox, and the first lost request shows it."""
    context = browser.new_context()
    page = context.new_page()
    careless = swapped("receipt.entry === id && RECEIPTS.has(receipt.taken)", "true || RECEIPTS.has(receipt.taken)")
    loose = swapped("const receipt = byEntry.get(kept.id);", "const receipt = byEntry.get(kept.id) ?? { leaf: '' };")
    text = loose(careless((BENCH / "outbox.js").read_text(encoding="utf-8")))
    page.route("**/outbox.js", lambda route: route.fulfill(content_type="text/javascript", body=text))
    driven = Driven(page, shop)
    with pytest.raises(AssertionError):
        driven.carry_out([Log(3, True), Send("request lost", 1)])
    context.close()


def test_two_hundred_waiting_entries_drain_at_once(driven: Driven) -> None:
    """Five batches go out one after the other in a single sending, in order."""
    model, record = driven.carry_out([Log(200, True), Send("arrives", 2)])
    assert record == model.record == list(range(1, 201))
    until(lambda: driven.page.evaluate("bench.link") == "idle")


def test_a_refused_copy_goes_to_the_visible_list(driven: Driven) -> None:
    """When the record has other bytes under an entry's id, the receipt of the refused copy puts it on the list."""
    driven.carry_out([])
    driven.page.evaluate(_LOG, [1, "clean"])
    kept: dict[str, Any] = driven.page.evaluate("async () => (await bench.outbox.waitingNow(bench.store))[0]")
    other = kept["line"].replace("wiped", "brushed")
    sent = {"id": f"{kept['id']}/x", "device": kept["device"], "sent_at": kept["entry"]["happened"], "line": other}
    assert driven.page.request.post(f"{driven.shop.address}/api/deliveries", data={"deliveries": [sent]}).ok
    driven.link.fate = "arrives"
    driven.page.evaluate(_SEND, 1)
    assert driven.page.evaluate(_STATE) == [[], [], [kept["seq"]]]
