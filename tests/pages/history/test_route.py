"""The history screens: who may look, how a serial is found, what a story shows."""

from tests.pages.shop_app import ShopApp


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
