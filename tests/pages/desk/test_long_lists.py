"""A long list stays readable: so many rows of one question on the sheet, all of them on a page of their own."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.pages.desk.page import MOST_ROWS
from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, send

MANY = MOST_ROWS + 7


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    made = ShopApp(Path(tmp_path_factory.mktemp("long")))
    slate = Tablet("SLATE")
    told = [a_pass(slate, f"1:{at:02d}", oxygen="300", attempt=at) for at in range(1, MANY + 1)]
    send(made.record, *told)
    yield made
    made.record.close()


def rows_about(text: str, question: str) -> int:
    return text.count(f'|{question}" aria-label=')


def test_the_sheet_shows_so_many_and_says_how_many_more(app: ShopApp):
    """Of the findings on one question the first stand on the sheet, with the way to all of them and their count."""
    text = app.get("/desk", "LEA").text
    assert rows_about(text, "purge-o2") == MOST_ROWS
    assert f"All {MANY}, 7 of them not shown here" in text


def test_all_of_them_have_a_page(app: ShopApp):
    """The question's own page leaves none out, and can decide on all with one reason; another question is not there."""
    text = app.get("/desk/question/purge-o2", "LEA").text
    assert rows_about(text, "purge-o2") == MANY
    assert f"Decide on all {MANY} with one reason" in text
    assert app.get("/desk/question/arc-strike", "LEA").status_code == 404


def test_deciding_on_nothing_says_what_to_tick(app: ShopApp):
    """The button of the list, pressed with nothing ticked, is answered by what to do, not by the name of a field."""
    answer = app.get("/desk/decide", "LEA")
    assert answer.status_code == 422
    assert "No finding is chosen" in answer.text
    assert "Tick those that one reason decides" in answer.text
