"""Styles and scripts: sent from the screens' folders alone, and whatever else is asked for is not there."""

import pytest

from server.pages.frame.assets import asset
from tests.pages.shop_app import ShopApp

NONE = ["%00", "frame/%00.css", "..%2f..%2fapi%2fx.css", "frame/sheet.html", "x" * 3000 + ".css"]


@pytest.mark.parametrize("name", NONE)
def test_what_is_no_style_is_not_there(shop_app: ShopApp, name: str):
    """A name with NUL in it, one outside the folders, one of another kind and one too long are 404, never a failure."""
    assert shop_app.get(f"/assets/x/{name}").status_code == 404


def test_a_style_is_sent(shop_app: ShopApp):
    """Control: a style under its own address is sent."""
    assert shop_app.get(asset("frame/sheet.css")).status_code == 200
