"""A machine's file for one pass, from the bench: what it measured stands there; the network missing is said."""

from pathlib import Path

from server.facts.supplies import Trace
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME
from tests.work import recordings

_PASS = """
async (joint) => {
  const place = { frame: strawlineBench.frame.frame, joint, attempt: 1, quarters: ['q12', 'q3', 'q6', 'q9'] };
  const kept = await strawlineBench.log({ kind: 'pass', run: 'root', ...place, torch_line: 'B1-T', sleeve: 'none' });
  strawlineBench.go({ screen: 'log', joint });
  return kept.id;
}
"""


def choose(hand: Hand, folder: Path, content: bytes) -> None:
    """Choose a file the way the tablet's own chooser does."""
    (folder / "arc.csv").write_bytes(content)
    with hand.page.expect_file_chooser() as chooser:
        hand.tap("machine-file")
    chooser.value.set_files(folder / "arc.csv")


def test_a_file_gives_its_pass_seconds_means_and_energy(hand: Hand, shop: Shop, tmp_path: Path) -> None:
    """Ten seconds of 40 A at 10 V: the screen and the record say arc-on, means and 4 kJ with its doubt."""
    entry = hand.page.evaluate(_PASS, "J03")
    hand.in_the_record()
    hand.tap(f"machine-{entry}")
    hand.page.evaluate("window.stays = true")
    hand.page.fill("#meter", "CM-7")
    hand.page.keyboard.press("Enter")
    until(lambda: hand.page.evaluate("strawlineBench.where.by") == "CM-7")
    hand.tap("meter-PS-1")
    choose(hand, tmp_path, recordings.text(((2.0, 12.0),)))
    hand.page.wait_for_selector(".guide:has-text('In the record, with 1 bead')")
    told = hand.page.locator(".guide").inner_text()
    assert "Arc energy 4000.0 J ±" in told
    assert hand.page.evaluate("window.stays") is True
    assert "Mean current 40" in told
    assert "Mean voltage 10" in told
    assert "Arc on 10" in told
    with shop.record.reads() as reads:
        [trace] = [found.entry for found in reads.frame_entries(FRAME) if isinstance(found.entry, Trace)]
    assert (trace.of, trace.instrument) == (entry, "PS-1")


def test_a_file_that_is_none_is_refused_in_the_records_words(hand: Hand, tmp_path: Path) -> None:
    """A text without columns is named as what it is; nothing is attached, and another can be chosen at once."""
    entry = hand.page.evaluate(_PASS, "J04")
    hand.in_the_record()
    hand.tap(f"machine-{entry}")
    choose(hand, tmp_path, b"no columns at all")
    hand.page.wait_for_selector(".notice-strong:not(:has-text('Sending'))")
    assert len(hand.page.locator(".notice-strong").inner_text()) > 20
    assert hand.page.locator(".guide").count() == 0
    assert hand.control("machine-file").is_enabled()


def test_without_the_network_the_screen_says_so_and_keeps_nothing_half(hand: Hand, tmp_path: Path) -> None:
    """Offline the pass itself still waits, so no file is asked for; once it is in, a lost link is said in words."""
    hand.page.context.set_offline(True)
    entry = hand.page.evaluate(_PASS, "J05")
    hand.tap(f"machine-{entry}")
    assert "needs the shop’s network" in hand.page.locator(".notice-strong").inner_text()
    assert hand.control("machine-file").count() == 0
    hand.page.context.set_offline(False)
    hand.page.evaluate("strawlineBench.send()")
    hand.in_the_record()
    hand.page.evaluate("strawlineBench.draw()")
    hand.page.context.set_offline(True)
    choose(hand, tmp_path, recordings.text(((2.0, 12.0),)))
    hand.page.wait_for_selector(".notice-strong:has-text('needs the shop’s network')")


def test_a_file_with_other_passes_in_it_leads_to_the_choice_of_beads(hand: Hand) -> None:
    """Where the file holds more than this pass, the page that shows its beads opens on this frame and pass."""
    entry = hand.page.evaluate(_PASS, "J06")
    hand.in_the_record()
    hand.tap(f"machine-{entry}", "machine-beads")
    hand.page.wait_for_url("**/traces?**")
    assert hand.page.locator(f"input[name=of][value='{entry}']").is_checked()
