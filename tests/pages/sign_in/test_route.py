"""The door: who is let in, where they come out, and what other sites may not do."""

from urllib.parse import unquote

import pytest

from tests.pages.shop_app import ShopApp


def test_names_are_tapped(shop_app: ShopApp):
    """The door shows everybody who can sign in, by name."""
    page = shop_app.get("/sign-in").text

    for name in ("Ada Vane", "Quin Moor", "Ole Hart"):
        assert name in page


@pytest.mark.parametrize(("person", "lands"), [("WEL", "/bench"), ("LEA", "/desk"), ("OWN", "/history")])
def test_everybody_lands_where_their_day_starts(shop_app: ShopApp, person: str, lands: str):
    """A welder comes out at the bench, the lead at the desk, the owner at the history."""
    assert shop_app.get("/", person).headers["location"] == lands


def test_a_wrong_pin_says_so_and_keeps_the_name(shop_app: ShopApp):
    """A wrong PIN is answered on the page, with the name still chosen and nothing said of what was wrong with it."""
    answer = shop_app.post("/sign-in", data={"person": "WEL", "secret": "000001", "device": "PAD"})

    assert answer.status_code == 401
    assert "do not fit together" in answer.text
    assert 'value="WEL" required checked' in answer.text
    assert "<option selected>PAD</option>" in answer.text


def test_whoever_was_signed_out_comes_back_to_what_they_asked(shop_app: ShopApp):
    """The door leads back to the page with what was asked of it; after a form, to the page the form stands on."""
    asked = shop_app.get("/desk/decide?key=A%7Cgap&choice=accept").headers["location"]
    came_from = {"referer": "http://localhost/desk/decide?key=A%7Cgap"}
    sent = shop_app.post("/desk/decide", data={"reason": "so"}, headers=came_from).headers["location"]
    abroad = shop_app.post("/desk/decide", headers={"referer": "http://elsewhere.example/desk"}).headers["location"]

    assert unquote(asked) == "/sign-in?onward=/desk/decide?key=A%7Cgap&choice=accept"
    assert unquote(sent) == "/sign-in?onward=/desk/decide?key=A%7Cgap"
    assert abroad == "/sign-in?onward=/"
    told = {"person": "OWN", "secret": "161803", "device": "desk", "onward": "/desk/decide?key=A%7Cgap"}
    assert shop_app.post("/sign-in", data=told).headers["location"] == told["onward"]


def test_an_address_too_long_for_the_door_leaves_what_was_asked_behind(shop_app: ShopApp):
    """Hundreds of findings in one address do not come through the door's form; their page does."""
    assert shop_app.get(f"/desk/decide?key={'k' * 600}").headers["location"] == "/sign-in?onward=/desk/decide"


@pytest.mark.parametrize("onward", ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", ""])
def test_nobody_is_sent_out_of_the_house(shop_app: ShopApp, onward: str):
    """Whatever a link says, after the door one is inside the house."""
    told = {"person": "OWN", "secret": "161803", "device": "desk", "onward": onward}
    assert shop_app.post("/sign-in", data=told).headers["location"] == "/"


@pytest.mark.parametrize(
    ("headers", "let_in"),
    [
        ({"sec-fetch-site": "same-origin"}, True),
        ({"sec-fetch-site": "none"}, True),
        ({"sec-fetch-site": "cross-site"}, False),
        ({"sec-fetch-site": "same-site"}, False),
        ({"origin": "http://localhost"}, True),
        ({"origin": "http://elsewhere.example"}, False),
        ({"origin": "null"}, False),
        ({"sec-fetch-site": "cross-site", "origin": "http://localhost"}, False),
        ({}, True),
    ],
)
def test_other_sites_send_nothing_in(shop_app: ShopApp, headers: dict[str, str], let_in: bool):
    """A form another site sends is refused before anything looks at it; the browser's own word counts first."""
    answer = shop_app.post("/hand-over", headers=headers)

    assert (answer.status_code == 303) is let_in
    assert let_in or "another site" in answer.text


@pytest.mark.parametrize("path", ["/sign-in", "/procedures", "/history", "/no-such-page", "/api/openapi.json"])
def test_every_answer_carries_its_guards(shop_app: ShopApp, path: str):
    """Pages, errors and the API's own description say what a browser may do with them."""
    headers = shop_app.get(path).headers

    assert "object-src 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"] == "no-store"
