"""The history screens: who may look, how a serial is found, what a story shows."""

import re
from html import unescape

from server.facts.moment import show_moment
from server.record.book_of_lines import now_ms
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet, value
from tests.work.small_shop import send, tell


def test_history_is_for_people_of_the_shop(shop_app: ShopApp):
    """Somebody not signed in is sent to the door and comes back to the page they asked for."""
    answer = shop_app.get("/history/SW-1")

    assert answer.status_code == 303
    assert answer.headers["location"] == "/sign-in?onward=/history/SW-1"


def test_a_whole_serial_leads_to_its_story(shop_app: ShopApp):
    """A whole serial typed into the search leads straight to the frame; a part of it lists what fits."""
    assert shop_app.get("/history?serial=SW-1", "OWN").headers["location"] == "/history/SW-1"
    assert "SW-1" in shop_app.get("/history?serial=sw", "OWN").text
    assert "No serial has XX in it" in shop_app.get("/history?serial=XX", "OWN").text


def test_the_story_of_an_untouched_frame(shop_app: ShopApp):
    """A frame of which only the packet is known shows its drawing, and that nothing is open."""
    page = shop_app.get("/history/SW-1", "OWN").text

    assert "Dune touring frame" in page
    assert "Nothing is open" in page
    assert 'aria-labelledby="frame-picture-title"' in page


def test_an_unknown_serial_is_named(shop_app: ShopApp):
    """A serial the record does not know is named with where serials come from."""
    answer = shop_app.get("/history/ZZ-9", "OWN")

    assert answer.status_code == 404
    assert "ZZ-9" in answer.text
    assert "job packets" in answer.text


def test_what_was_told_apart_from_an_attempt_is_shown(shop_app: ShopApp):
    """A laboratory's reading stands at its joint by the name of who logged it, gas with the frame, a withdrawn step."""
    slate = Tablet("APART")
    pressed = slate.tell("1:10", "problem", frame="SW-1", words="stopped")
    read = {"hardness": value("312", "HV", "typed")}
    told = (
        slate.tell("1:00", "purge", frame="SW-1", setup="S0", line="N-P", act="on"),
        pressed,
        slate.tell("1:11", "correction", of="APART:b1:1", withdraw=True, reason="tapped by mistake"),
        slate.tell("1:20", "reading", frame="SW-1", joint="A", values=read, note="root side, by the laboratory"),
    )
    send(shop_app.record, *told)
    page, joint = (shop_app.get(address, "OWN").text for address in ("/history/SW-1", "/history/SW-1/A"))
    for each in (page, joint):
        assert "hardness 312 HV (typed)" in each
        assert "root side, by the laboratory" in each
        assert "<td>Ada Vane</td>" in each.replace(' data-said="who"', "")
        assert "WEL</td>" not in each
    assert re.search(r"tapped by mistake</small></td><td>Ada Vane</td>", page)
    assert "purge on, set-up S0, N-P" in page
    assert "purge on" not in joint
    read_alone, gas = (shop_app.get(f"/entries/APART:b1:{each}", "OWN").text for each in (4, 2))
    assert 'href="/history/SW-1/A"' in read_alone
    assert 'href="/history/SW-1"' in gas


def test_an_earlier_position_is_asked_in_words(shop_app: ShopApp):
    """No position is below 1; before its packet a serial was not known yet; beyond the end is as known now."""
    refused = shop_app.get("/history/SW-1?known_at=-3", "OWN")
    assert refused.status_code == 422
    # The field by its own name, as it stands in the address; what is expected begins as a sentence does.
    assert "<p>known_at: found '-3'</p><p>Input should be greater" in unescape(refused.text)
    assert shop_app.get("/history/SW-1/A?known_at=0", "OWN").status_code == 422
    assert "was not known at record position 1 yet" in unescape(shop_app.get("/history/SW-1?known_at=1", "OWN").text)
    assert "99999999" not in shop_app.get("/history/SW-1?known_at=99999999", "OWN").text
    assert shop_app.get(f"/history/SW-1?known_at={10**23}", "OWN").status_code == 200
    assert "Did you mean SW-1?" in shop_app.get("/history/sw-1", "OWN").text


def test_a_frame_of_before_the_record_says_so_at_each_joint(shop_app: ShopApp):
    """Its card stands on its pages, and a joint nobody logged is not called one that waits for its first pass."""
    moment = show_moment(now_ms())
    packet = {"kind": "packet", "id": "OLD-1", "frame": "OLD-1", "design": "DUNE", "size": "M", "issued": moment}
    tell(shop_app.record, **packet, before_the_record=True, note="card: two heats, one unreadable")
    history, joint = (shop_app.get(address, "OWN").text for address in ("/history/OLD-1", "/history/OLD-1/A"))
    assert "Built before the record began" in history
    # It was never released here, so nothing leads to the day of its release.
    assert "/history/OLD-1/release-day" not in history
    assert "OLD-1 was built before it began" in joint
    assert "Nothing has been logged on this joint yet" not in joint
    assert all("card: two heats, one unreadable" in page for page in (history, joint))
    assert "Nothing has been logged on this joint yet" in shop_app.get("/history/SW-1/C", "OWN").text


def test_who_a_frame_was_sent_to_is_named_to_whoever_may_see_it(shop_app: ShopApp):
    """The owner reads the customer's name with the number; a welder reads neither."""
    moment = show_moment(now_ms() - 60_000)
    packet = {"kind": "packet", "id": "SENT-1", "frame": "SENT-1", "design": "DUNE", "size": "M", "issued": moment}
    tell(shop_app.record, **packet)
    tell(shop_app.record, kind="shipment", id="S-77", frame="SENT-1", customer="CU-1", at=moment)
    with shop_app.record.reads() as reads:
        name = reads.registers().customers["CU-1"].name
    owner, welder = (shop_app.get("/history/SENT-1", person).text for person in ("OWN", "WEL"))
    assert f"shipped, S-77 to {name} (CU-1)" in owner
    assert "shipped, S-77" in welder
    assert name not in welder
    assert "CU-1" not in welder
