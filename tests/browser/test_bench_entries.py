"""Every kind of entry the bench can make is understood by the record and says what was tapped."""

from typing import Any

from playwright.sync_api import Browser

from server.work.open_tablets import open_tablets
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, LEAD, OTHER_FRAME, PIN, WELDER


def arrived(hand: Hand) -> list[dict[str, Any]]:
    """Wait until all is in the record, see that nothing was misunderstood, and give what this tablet logged."""
    hand.in_the_record()
    assert hand.page.evaluate("strawlineBench.told.map((kept) => kept.receipt.problem)") == []
    return hand.entries()


def test_a_cylinder_change_and_its_bead(hand: Hand) -> None:
    """The new cylinder names the old one and its fill lot; the bead after it names line, cylinder and why."""
    hand.tap("foot-gas", "line-B1-P", "kept", "AR-0903", "good", "grade-1")
    change, bead = arrived(hand)
    assert [change[name] for name in ("line", "off", "on", "fill_lot", "kept_flowing")] == [
        "B1-P", "AR-0902", "AR-0903", "L-901", True,
    ]  # fmt: skip
    assert [bead[name] for name in ("line", "cylinder", "result", "grade", "why")] == [
        "B1-P", "AR-0903", "good", 1, "change",
    ]  # fmt: skip


def test_a_sleeve_opened_read_and_closed(hand: Hand) -> None:
    """A sleeve is opened with what its rod ends say, in one entry, read once more, then closed."""
    hand.tap("foot-gas", "open-sleeve", "FT-0903", "ERTi-2")
    assert "FT-0903" in hand.page.evaluate("strawlineBench.sleeves.map((each) => each.sleeve)")
    hand.tap("read-ends", "FT-0903", "ERTi-2", "close-FT-0903")
    told = [(entry["act"], entry["sleeve"], entry.get("rod_ends")) for entry in arrived(hand)]
    assert told == [("opened", "FT-0903", "ERTi-2"), ("checked", "FT-0903", "ERTi-2"), ("closed", "FT-0903", None)]


def test_rods_that_are_not_what_the_label_says_light_the_red_light(hand: Hand) -> None:
    """A sleeve labelled ERTi-2 with rods stamped ERTi-9 is told at once; a wrong tap is said again, or it is closed."""
    hand.tap("foot-gas", "open-sleeve", "FT-0903", "ERTi-9")
    assert "the label says ERTi-2, the rod ends say ERTi-9" in hand.page.locator(".red-light").inner_text()
    hand.tap("mistaken", "ERTi-9", "close-it")
    opened, back, again, closed = arrived(hand)
    assert [each.get("rod_ends") for each in (opened, again)] == ["ERTi-9", "ERTi-9"]
    assert (back["of"], back["withdraw"], closed["act"]) == (opened["id"], True, "closed")
    assert "FT-0903" not in hand.page.evaluate("strawlineBench.sleeves.map((each) => each.sleeve)")


def test_a_purge_with_its_reading(hand: Hand) -> None:
    """Purge on carries set-up, line and flow; a reading taken in it names them too; off ends it."""
    hand.tap("foot-purge", "setup-LST-S1")
    hand.key_in("6")
    hand.tap("purge-on")
    hand.key_in("18")
    hand.tap("take")
    hand.page.wait_for_selector("text=Reading 18 ppm saved")
    hand.tap("purge-off")
    on, reading, off = arrived(hand)
    assert [on[name] for name in ("act", "setup", "line", "frame")] == ["on", "LST-S1", "B1-P", FRAME]
    assert on["values"]["pre_purge_flow"] == {"value": "6", "unit": "L/min", "how": "read", "by": "FM-1"}
    assert reading["values"]["oxygen"] == {"value": "18", "unit": "ppm", "how": "read", "by": "PA-1"}
    assert (reading["setup"], off["act"]) == ("LST-S1", "off")


def test_a_stop_is_kept_with_one_tap_and_told_later(hand: Hand) -> None:
    """The problem button alone keeps frame and joint; what it was is a second entry that names the first."""
    hand.tap("more-all", "joint-J04", "problem")
    assert [entry["kind"] for entry in hand.entries()] == ["problem"]
    hand.tap("tungsten touched")
    stop, detail = arrived(hand)
    assert (stop["frame"], stop["joint"]) == (FRAME, "J04")
    assert (detail["kind"], detail["of"], detail["change"]["what"]) == ("correction", stop["id"], "tungsten touched")


def test_a_stop_is_explained_from_the_log_or_was_none(hand: Hand) -> None:
    """What nobody said at the stop is said from “Logged”; one tapped by mistake is withdrawn where it was tapped."""
    hand.tap("problem", "foot-log")
    stop = hand.entries()[0]
    hand.tap(f"mend-{stop['id']}", "say-what", "blow-through", "problem", "mistaken")
    first, said, second, withdrawn = arrived(hand)
    assert (said["of"], said["change"]["what"]) == (first["id"], "blow-through")
    assert (withdrawn["of"], withdrawn["withdraw"]) == (second["id"], True)


def test_a_reading_keyed_in_wrongly_is_put_right(hand: Hand) -> None:
    """The right value stands beside the wrong one, known the way that one was; the record reads the right one."""
    hand.tap("foot-purge", "setup-LST-S1")
    hand.key_in("60")
    hand.tap("purge-on", "foot-log")
    purge = hand.entries()[0]
    hand.tap(f"mend-{purge['id']}", "open-reading", "open-pre_purge_flow")
    hand.key_in("6")
    hand.tap("log", "foot-purge", "purge-off")
    first, mend, _ = arrived(hand)
    assert first["values"]["pre_purge_flow"]["value"] == "60"
    right = {"value": "6", "unit": "L/min", "how": "read", "by": "FM-1"}
    assert (mend["of"], mend["change"]) == (first["id"], {"values": {"pre_purge_flow": right}})
    standing = f"strawlineBench.entries().find((entry) => entry.id === '{first['id']}').values"
    assert hand.page.evaluate(standing) == {"pre_purge_flow": right}


def test_every_frame_at_the_bench_is_two_taps_away(hand: Hand) -> None:
    """The bar names three frames and how many more there are; the tablet's own way back leads to the screen before."""
    hand.page.evaluate(
        "const { frames } = strawlineBench.sheet;"
        "const more = ['N-1', 'N-2', 'N-3'].map((frame) => ({ ...frames[0], frame }));"
        "strawlineBench.sheet.frames = [...frames, ...more]; strawlineBench.go({ screen: 'frame', frame: 'N-3' });"
    )
    assert hand.control("all-frames").inner_text().split() == ["2", "more", "frames"]
    hand.tap("all-frames", f"choose-{FRAME}")
    assert hand.control(f"frame-{FRAME}").get_attribute("aria-pressed") == "true"
    hand.tap("more-all", "joint-J04", "cautions")
    hand.page.go_back()
    hand.page.wait_for_selector("[data-key=run-root]")
    hand.page.go_back()
    hand.page.wait_for_selector("[data-key=joint-J04]")


def test_a_wrong_frame_is_mended_by_a_second_entry(hand: Hand) -> None:
    """“Wrong frame” adds a correction; the first entry stays as it was and now counts for the other frame."""
    hand.tap("more-all", "joint-J10", "clean", "brushed and wiped", "foot-log")
    clean = hand.entries()[0]
    hand.tap(f"mend-{clean['id']}", "open-frame", OTHER_FRAME)
    first, mend = arrived(hand)
    assert first["frame"] == FRAME
    assert (mend["of"], mend["change"], mend["reason"]) == (first["id"], {"frame": OTHER_FRAME}, "wrong frame")
    standing = hand.page.evaluate(f"strawlineBench.entries().find((entry) => entry.id === '{first['id']}').frame")
    assert standing == OTHER_FRAME


def test_what_was_logged_by_mistake_is_taken_back(hand: Hand) -> None:
    """“Take it back” right after the tap adds an entry for each that the tap kept; the joint stands as before it."""
    hand.tap("more-all", "joint-J07")
    hand.key_in("0.1")
    hand.log()
    hand.tap("take-back")
    gap, tack, *backs = arrived(hand)
    assert [gap["kind"], tack["kind"]] == ["gap", "tack"]
    assert [(back["of"], back["withdraw"]) for back in backs] == [(tack["id"], True), (gap["id"], True)]
    assert hand.page.evaluate("strawlineBench.progress().joints.J07.tacked") is False
    assert hand.page.evaluate("strawlineBench.draft().values") == {"gap": "0.1"}


def test_a_tack_that_did_not_happen_leaves_the_gap_to_the_welder(hand: Hand) -> None:
    """Taken back from the log, the tablet asks whether the gap logged with it was measured; a wrong joint is both's."""
    ways = (("J07", "open-joint", "J08"), ("J09", "withdraw", "gap-back"), ("J10", "withdraw", "gap-stands"))
    for joint, *taps in ways:
        hand.tap("more-all", f"joint-{joint}")
        hand.key_in("0.1")
        hand.log()
        until(lambda: hand.entries()[-1]["kind"] == "tack")
        hand.tap("back", "foot-log", f"mend-{hand.entries()[-1]['id']}", *taps)
        hand.tap("back")
    own = {entry["id"] for entry in arrived(hand)}
    standing = hand.page.evaluate("strawlineBench.entries().map(({ id, kind, joint }) => [id, kind, joint])")
    assert sorted(told for id_, *told in standing if id_ in own) == [["gap", "J08"], ["gap", "J10"], ["tack", "J08"]]


def test_what_happened_before_is_logged_late_with_its_reason(hand: Hand) -> None:
    """“Earlier” keeps both facts: when it happened and when it was tapped, and why it is late."""
    hand.tap("more-all", "joint-J08", "earlier", "ago-30", "gloves on, hands busy")
    hand.key_in("0.1")
    hand.log()
    tack = arrived(hand)[-1]
    late_min = hand.page.evaluate("(t) => (Date.parse(t.device_time) - Date.parse(t.happened)) / 60000", tack)
    assert round(late_min) == 30
    assert tack["late_reason"] == "gloves on, hands busy"


def test_no_access_is_an_answer_with_a_reason(hand: Hand) -> None:
    """“No access” first asks why; the look then carries the reason and no grade."""
    hand.tap("more-all", "joint-J09", "look", "side-inside", "no-access", "scope not at hand")
    look = arrived(hand)[0]
    assert (look["side"], look["answer"], look["reason"]) == ("inside", "no access", "scope not at hand")
    assert "grade" not in look


def test_a_frame_is_opened_by_its_first_entry_and_closed_at_the_end(hand: Hand, shop: Shop) -> None:
    """Before its first entry on a frame the tablet says it has it open; “close” says that all of it was told."""
    hand.tap("more-all", "joint-J10", "clean", "wiped with solvent", "foot-log", "open-ends")
    hand.in_the_record()
    with shop.record.reads() as reads:
        device = hand.entries()[0]["device"]
        assert device in {each.device for each in open_tablets(reads.frame_entries(FRAME))}
    hand.tap(f"close-{FRAME}")
    hand.in_the_record()
    with shop.record.reads() as reads:
        assert device not in {each.device for each in open_tablets(reads.frame_entries(FRAME))}


def test_a_geometry_check_is_judged_on_the_table(hand: Hand) -> None:
    """A deviation beyond the design's limit lights the red light and is logged as failed, read by the dial."""
    hand.page.evaluate("strawlineBench.go({ screen: 'geometry', joint: 'G1' })")
    hand.key_in("1.2")
    assert "Outside the limit" in hand.page.locator(".red-light").inner_text()
    hand.tap("log")
    check = arrived(hand)[0]
    assert (check["check"], check["result"]) == ("G1", "failed")
    assert check["values"]["deviation"] == {"value": "1.2", "unit": "mm", "how": "read", "by": "AT-1"}


def test_another_person_releases_with_their_own_pin(hand: Hand) -> None:
    """A wrong PIN is refused in words; the right one releases in that person's name, and the welder stays signed in."""
    hand.page.evaluate("strawlineBench.go({ screen: 'release', joint: 'J02' })")
    hand.tap(f"by-{LEAD}")
    for digit in "111112":
        hand.tap(f"pin-{digit}")
    hand.tap("release-now")
    hand.page.wait_for_selector(".pad-problem:has-text('do not fit together')")
    for digit in PIN:
        hand.tap(f"pin-{digit}")
    hand.tap("release-now")
    hand.page.wait_for_selector(".frame-screen")
    release = arrived(hand)[0]
    assert (release["kind"], release["who"], release["joint"]) == ("release", LEAD, "J02")
    assert "unconfirmed" not in release
    assert hand.page.evaluate("strawlineBench.person.id") == WELDER


def test_a_release_without_the_network_is_provisional_and_unconfirmed(hand: Hand) -> None:
    """Offline nobody's PIN can be checked, so the release says so: unconfirmed, and given before the record had all."""
    hand.page.context.set_offline(True)
    hand.page.evaluate("strawlineBench.go({ screen: 'release', joint: 'J02' })")
    hand.tap(f"by-{LEAD}")
    for digit in PIN:
        hand.tap(f"pin-{digit}")
    hand.tap("release-now")
    hand.page.wait_for_selector(".frame-screen")
    release = hand.entries()[-1]
    assert (release["who"], release["unconfirmed"], release["provisional"]) == (LEAD, True, True)


def test_who_was_named_offline_is_confirmed_after_signing_in(hand: Hand, shop: Shop) -> None:
    """Handed over offline, entries are marked unconfirmed; signed in, one tap confirms each by a second entry."""
    hand.page.context.set_offline(True)
    hand.tap("person", "person-W02")
    hand.page.evaluate(
        "strawlineBench.log({ kind: 'clean', frame: strawlineBench.frame.frame, joint: 'J11', method: 'wiped' })"
    )
    clean = hand.entries()[-1]
    assert (clean["who"], clean["unconfirmed"]) == ("W02", True)
    hand.page.context.set_offline(False)
    sign_in(hand.page, shop.address, "W02", PIN, clean["device"])
    until(lambda: hand.page.evaluate("strawlineBench.person?.confirmed"))
    hand.tap("person", "confirm")
    until(lambda: hand.page.evaluate("strawlineBench.unconfirmedEntries().length === 0"))
    mend = arrived(hand)[-1]
    assert (mend["who"], mend["of"], mend["change"]) == ("W02", clean["id"], {"unconfirmed": False})


def test_a_rescue_file_carries_entries_to_another_tablet(hand: Hand, browser: Browser, shop: Shop) -> None:
    """What waits on a dying tablet is saved as a file, taken up by another, and arrives under its own ids."""
    hand.page.context.set_offline(True)
    hand.page.evaluate(
        "strawlineBench.log({ kind: 'clean', frame: strawlineBench.frame.frame, joint: 'J12', method: 'wiped' })"
    )
    hand.tap("state")
    with hand.page.expect_download() as download:
        hand.tap("rescue-save")
    other = tablet(browser)
    page = other.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-RESCUE")
    Hand(page).tap("state")
    with page.expect_file_chooser() as chooser:
        Hand(page).tap("rescue-load")
    chooser.value.set_files(download.value.path())
    page.wait_for_selector("text=Taken up: 2")
    Hand(page).in_the_record()
    with shop.record.reads() as reads:
        assert reads.line(hand.entries()[-1]["id"]) is not None
    other.close()
