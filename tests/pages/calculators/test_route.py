"""The calculators' addresses: open to anybody, whole page and answer alone, with an empty record and a filled form."""

from pathlib import Path

import httpx
import pytest

from server.app import build_app
from server.record.book_of_lines import Record
from server.settings import Settings
from tests.api.asking import Asker
from tests.record.fixtures import empty_file, file, record

__all__ = ["empty_file", "file", "record"]

CALLED = ("heat-input", "purge", "hold-time", "dew-point")


@pytest.fixture
def visitor(record: Record, tmp_path: Path) -> Asker:
    """Somebody who has not signed in, at a shop that has released nothing yet."""
    app = build_app(Settings(data_folder=tmp_path), record)
    return Asker(httpx.ASGITransport(app, raise_app_exceptions=False))


def test_the_list_names_all_four(visitor: Asker) -> None:
    """The list leads to each calculator, and needs nobody signed in."""
    text = visitor.ask("GET", "/calculators").text
    assert all(f'href="/calculators/{called}"' in text for called in CALLED)


@pytest.mark.parametrize("called", CALLED)
def test_a_page_has_its_answer_picture_caution_and_source(visitor: Asker, called: str) -> None:
    """Each page opens worked out, with a drawing, a caution with its authority, and where the figures come from."""
    answer = visitor.ask("GET", f"/calculators/{called}")
    assert answer.status_code == 200
    text = answer.text
    assert "data-spoken" in text
    assert '<svg class="curves" role="img"' in text
    assert "Caution." in text
    assert "Authority:" in text
    assert "Where the figures come from" in text
    assert "come first" in text


@pytest.mark.parametrize("called", CALLED)
def test_nothing_inline_that_the_policy_forbids(visitor: Asker, called: str) -> None:
    """No style attribute, no style element and no script of its own stands in a page or in an answer."""
    for path in (f"/calculators/{called}", f"/calculators/{called}/result"):
        text = visitor.ask("GET", path).text
        assert " style=" not in text
        assert "<style" not in text
        assert all("src=" in part.partition(">")[0] for part in text.split("<script")[1:])


@pytest.mark.parametrize("called", CALLED)
def test_the_answer_alone_is_the_answer_of_the_page(visitor: Asker, called: str) -> None:
    """What the script fetches is what the whole page shows, letter for letter."""
    alone = visitor.ask("GET", f"/calculators/{called}/result").text
    assert "<html" not in alone
    assert alone.strip() in visitor.ask("GET", f"/calculators/{called}").text


def test_an_error_keeps_the_form_filled(visitor: Asker) -> None:
    """A wrong field is told beside it and in the summary; it and all others still hold what was written."""
    answer = visitor.ask("GET", "/calculators/heat-input?amps=fifty&volts=11.25&travel_mm_per_min=80")
    assert answer.status_code == 422
    assert 'name="amps" value="fifty"' in answer.text
    assert 'name="volts" value="11.25"' in answer.text
    assert 'aria-invalid="true"' in answer.text
    assert answer.text.count("expected a number and a unit") == 2
    assert "data-spoken" not in answer.text


def test_what_is_written_is_never_run(visitor: Asker) -> None:
    """Markup written into a field comes back as text."""
    text = visitor.ask("GET", "/calculators/hold-time?wall_mm=%22%3E%3Cscript%3Ex").text
    assert "<script>x" not in text
    assert "&lt;script&gt;x" in text


def test_the_purge_teaches_what_is_missing(visitor: Asker) -> None:
    """Without a design the page says how one is released, and works on a volume typed in."""
    text = visitor.ask("GET", "/calculators/purge").text
    assert "No frame design has been released here yet" in text
    assert "strawline load" in text
    assert 'name="volume_l"' in text


def test_an_unknown_calculator_names_those_there_are(visitor: Asker) -> None:
    """An address that leads nowhere says where the others lead."""
    answer = visitor.ask("GET", "/calculators/luck")
    assert answer.status_code == 404
    assert "hold-time" in answer.text
