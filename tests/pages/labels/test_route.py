"""The papers over HTTP, and on paper in black and white."""

import pytest

from tests.pages.bench.bench_shop import FRAME, WELDER
from tests.pages.bench.fixtures import Visit, bench_record, visit

__all__ = ["bench_record", "visit"]


def test_the_traveller_of_a_frame(visit: Visit) -> None:
    """It names the frame, every joint and hold point, and holds a code for the frame and for each joint."""
    visit.sign_in(WELDER)
    text = visit.ask("GET", f"/traveller/{FRAME}").text
    assert text.count("<svg") == 1 + 32
    assert "before J04 is tacked: the down tube lies over it" in text
    assert "head tube twist after tacking the front triangle" in text


def test_a_frame_without_a_packet_has_no_traveller(visit: Visit) -> None:
    """An unknown frame is told in words, with what to do first."""
    visit.sign_in(WELDER)
    answer = visit.ask("GET", "/traveller/NOBODY", headers={"accept": "text/html"})
    assert answer.status_code == 404
    assert "Issue one, then print it" in answer.text


def test_labels_for_sleeves_and_cylinders(visit: Visit) -> None:
    """Every sleeve and cylinder on file has its label."""
    visit.sign_in(WELDER)
    text = visit.ask("GET", "/labels").text
    assert all(name in text for name in ("FT-0901", "FT-0903", "AR-0902", "fill lot L-901"))


@pytest.mark.parametrize("path", [f"/traveller/{FRAME}", "/labels"])
def test_papers_are_for_people_of_the_shop(visit: Visit, path: str) -> None:
    """Nobody signed in sees neither traveller nor labels."""
    assert visit.ask("GET", path).status_code == 401
