"""The procedure screens: anybody may read one, in the order of the work, with its cautions and sources."""

from tests.pages.shop_app import ShopApp


def test_the_list_says_what_is_in_force(shop_app: ShopApp):
    """The list needs no sign-in, and says which revision holds today."""
    answer = shop_app.get("/procedures")

    assert answer.status_code == 200
    assert "rev A" in answer.text
    assert "in force" in answer.text


def test_a_procedure_is_read_in_the_order_of_the_work(shop_app: ShopApp):
    """What is asked before the arc stands before what is asked at it and after; each limit with source and plan."""
    page = shop_app.get("/procedures/TUBE/A").text

    places = [page.index(words) for words in ("Before the arc", "At the arc", "After the arc")]
    assert places == sorted(places)
    assert page.index("purge oxygen at arc start") < places[1] < page.index("heat input")
    assert "at most 20 ppm" in page
    assert "every pass" in page
    assert "OSHA 29 CFR 1910.146" in page
    assert "Local codes, your qualified procedure and licensed practice come first" in page


def test_a_procedure_that_is_not_there_is_named(shop_app: ShopApp):
    """An unknown revision is answered with its name and where to look, on a page for people."""
    answer = shop_app.get("/procedures/TUBE/Z")

    assert answer.status_code == 404
    assert "no procedure &#39;TUBE&#39; at revision &#39;Z&#39;" in answer.text


def test_a_revision_against_itself_differs_in_nothing(shop_app: ShopApp):
    """Two equal revisions are said to differ in nothing."""
    assert "Nothing differs" in shop_app.get("/procedures/TUBE/A/against/A").text
