"""Every answer that is text says in which letters it is written, whoever asks and whatever comes of it."""

import re

import pytest
from fastapi import FastAPI

from server.pages.frame.assets import asset
from tests.security.caller import Caller, signed_in
from tests.security.test_who_may_what import addresses

SAFE = re.compile(r"charset=(utf-8|iso-8859-1)", re.IGNORECASE)
FILES = (asset("frame/sheet.css"), asset("sign_in/keypad.js"), asset("frame/mark.svg"))


def without_letters(content_type: str) -> bool:
    kind = content_type.partition(";")[0].strip()
    is_text = kind.startswith("text/") or kind.endswith(("/xml", "+xml"))
    return is_text and not SAFE.search(content_type)


@pytest.mark.parametrize("accepts", ["text/html", "*/*"])
@pytest.mark.parametrize("who", ["owner", "a stranger"])
def test_every_text_says_its_letters(app: FastAPI, who: str, accepts: str):
    """Pages, lists, scripts, styles, pictures and errors: a type with every body, and for text the letters."""
    caller = signed_in(app, "owner") if who == "owner" else Caller(app)
    wrong = []
    for method, path in [(each.method, each.filled) for each in addresses(app)] + [("GET", each) for each in FILES]:
        if path == "/hand-over":
            continue
        answer = caller.ask(method, path, headers={"accept": accepts})
        told = answer.headers.get("content-type", "")
        if answer.content and (not told or without_letters(told)):
            wrong.append((method, path, answer.status_code, told))
    assert wrong == []


@pytest.mark.parametrize(
    ("told", "wrong"),
    [("text/html", True), ("text/html; charset=utf-8", False), ("image/svg+xml", True), ("application/json", False)],
)
def test_text_without_letters_is_seen(told: str, wrong: bool):
    """Control: text and drawings without them are found, data that is always in one kind of letters is not."""
    assert without_letters(told) is wrong
