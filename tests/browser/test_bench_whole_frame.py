"""A whole frame by touch alone: tacked, welded, looked at, released, measured; every tap is counted."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import NamedTuple

import pytest
from playwright.sync_api import Browser

from server.facts.welding import Look, Pass, Tack
from server.plan.progress import frame_progress
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.serving import free_port, served
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import LEAD, PIN, ROOT, WELDER, open_shop

SERIAL = "MT-0403"
_READINGS = {"gap": "0.1", "oxygen": "12", "interpass": "40", "arc_on": "60", "deviation": "0.2"}
_STEPS = "[...document.querySelectorAll('.frame-next .step')].map((each) => each.dataset.key)"
_ASKED = "document.querySelector('.ask[aria-pressed=true]')?.dataset.key.slice(4) ?? null"
_LEFT_OUT = "[...document.querySelectorAll('.ask')].filter((each) => each.textContent.includes('not read yet')).length"


class Tapped(NamedTuple):
    """One run as it was logged: taps on controls, looks among them, strokes of a keyboard."""

    step: str
    taps: int
    looks: int
    keyboard: int


def with_a_small_frame(folder: Path) -> None:
    """Add a frame of three seams, one of which another tube hides, and a measurement on the table."""
    small = ROOT / "tests" / "story" / "shop" / "designs" / "dune.toml"
    text = small.read_text(encoding="utf-8").replace('procedure = "TUBE"', 'procedure = "T1"')
    (folder / "designs" / "dune.toml").write_text(text, encoding="utf-8")
    packets = (folder / "work_today.toml").read_text(encoding="utf-8")
    issued = packets.partition("issued = ")[2].partition("\n")[0]
    packet = f'[[packet]]\nid = "{SERIAL}"\nframe = "{SERIAL}"\ndesign = "DUNE"\nsize = "M"\nbench = "B1"\n'
    (folder / "work_today.toml").write_text(f"{packets}\n{packet}issued = {issued}\n", encoding="utf-8")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """A shop with a small frame in work."""
    folder = tmp_path_factory.mktemp("small")
    record = open_shop(folder, with_a_small_frame)
    try:
        with served(record, folder, free_port()) as address:
            yield Shop(record, folder, address)
    finally:
        record.close()


def answer_what_is_asked(hand: Hand) -> None:
    """Key in every reading that is asked, each on the pad on the screen."""
    if hand.control("shift").count():
        hand.tell_the_shift()
    while hand.page.evaluate(_LEFT_OUT):
        hand.key_in(_READINGS[hand.page.evaluate(_ASKED)])


def more_kept_than(hand: Hand, kept: int) -> bool:
    return hand.kept() > kept


def run_logged(hand: Hand, step: str) -> Tapped:
    """Take a step that is offered, log it, and answer the looks it asks for."""
    hand.count_from_here()
    hand.tap(step)
    answer_what_is_asked(hand)
    hand.log()
    looks = 0
    while hand.page.locator(".look-part").count():
        kept = hand.kept()
        hand.page.wait_for_timeout(60)
        hand.tap("grade-0")
        until(partial(more_kept_than, hand, kept))
        hand.wait_until_drawn()
        looks += 1
        hand.page.wait_for_timeout(150)
    counted = hand.counted()
    hand.tap("to-frame")
    return Tapped(step, counted["taps"], looks, counted["keyboard"])


def released(hand: Hand, joint: str) -> None:
    """Another person looks at the seam and says so with their own PIN."""
    hand.tap("more-all", f"joint-{joint}", "release", f"by-{LEAD}")
    for digit in PIN:
        hand.tap(f"pin-{digit}")
    hand.tap("release-now")
    hand.page.wait_for_selector(".frame-screen")


def measured(hand: Hand, step: str) -> None:
    hand.tap(step)
    hand.key_in(_READINGS["deviation"])
    hand.log()
    hand.page.wait_for_selector(".frame-screen")


@pytest.fixture(scope="module")
def runs(browser: Browser, shop: Shop) -> Iterator[list[Tapped]]:
    """Everything the frame needs, taking whatever the tablet offers first, with purge on from the start."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    hand = Hand(page)
    hand.tap(f"frame-{SERIAL}", "foot-purge")
    hand.key_in("7")
    hand.tap("purge-on", "back")
    done = []
    while steps := page.evaluate(_STEPS):
        if "A" not in page.evaluate(_OPEN) and not page.evaluate("strawlineBench.progress().joints.A.released"):
            released(hand, "A")
        elif steps[0] == "step-G1":
            measured(hand, steps[0])
        else:
            done.append(run_logged(hand, steps[0]))
    hand.in_the_record()
    yield done
    context.close()


_OPEN = """
Object.entries(strawlineBench.progress().joints).filter(([, joint]) => !joint.finished).map(([id]) => id)
"""


def test_every_run_is_logged_by_three_taps_and_no_keyboard(runs: list[Tapped]) -> None:
    """Next step, log, and one tap for each colour looked at; only the first of the shift tells its settings besides."""
    assert [run for run in runs if run.keyboard] == []
    assert [run.step for run in runs if run.taps != 2 + run.looks] == ["step-A:welded"]
    assert len(runs) == 9


def test_the_frame_is_whole_in_the_record(runs: list[Tapped], shop: Shop) -> None:
    """Three seams tacked, rooted and filled all round, looked at, the hidden one released before it was covered."""
    with shop.record.reads() as reads:
        entries = [found.entry for found in reads.frame_entries(SERIAL)]
        progress = frame_progress(reads.registers().designs["DUNE"], entries)
    assert all(progress.joint(joint).finished for joint in "ABC")
    assert progress.joint("A").released
    counts = [sum(isinstance(each, kind) for each in entries) for kind in (Tack, Pass, Look)]
    assert counts == [3, 6, sum(run.looks for run in runs)]
    kinds = [(each.kind, getattr(each, "joint", None)) for each in entries]
    assert kinds.index(("release", "A")) < kinds.index(("tack", "B"))
