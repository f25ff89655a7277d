"""The name of the screen somebody is in is marked on top of the page."""

import pytest

from server.pages.frame.rooms import room_of
from tests.pages.shop_app import ShopApp


@pytest.mark.parametrize(
    ("path", "room"),
    [
        ("/suspect-sets/north@1", "/desk"),
        ("/history/SW-1/A", "/history"),
        ("/holds", "/claims"),
        ("/own", "/own"),
        ("/", "/"),
    ],
)
def test_a_page_belongs_to_a_screen(path: str, room: str):
    """What the desk, a history and the claims lead to belongs to them; every other page to itself."""
    assert room_of(path) == room


def test_one_screen_is_marked(shop_app: ShopApp):
    """The suspect sets mark the desk and nothing else on top; a page of no screen marks none."""
    top = [shop_app.get(address, "LEA").text.partition("</header>")[0] for address in ("/suspect-sets", "/own")]
    assert [each.count("aria-current") for each in top] == [1, 0]
    assert 'href="/desk" aria-current="true"' in top[0]
