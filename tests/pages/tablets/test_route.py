"""The tablets' page offers only what can be done."""

from tests.pages.shop_app import ShopApp


def test_without_a_tablet_there_is_none_to_revoke(shop_app: ShopApp):
    """Before the first tablet is enrolled the page invites one and has no form that revokes."""
    shown = shop_app.get("/tablets", "OWN").text
    assert "Enrol a tablet" in shown
    assert "Revoke a tablet" not in shown
