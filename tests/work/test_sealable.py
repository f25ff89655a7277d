"""What TOML gives becomes what may be sealed."""

import tomllib
from datetime import date, time

from pydantic import ValidationError

from server.facts.equipment import Calibration
from server.work.sealable import sealable, with_whole_figures_as_text


def test_figures_with_a_point_become_their_text() -> None:
    """A figure with a decimal point is written out, also a small one; whole numbers and truth stay what they are."""
    told = sealable(tomllib.loads("a = 0.05\nb = 3\nc = true\nd = [1.5, 2]\ne = { f = 0.00001 }"))
    assert told == {"a": "0.05", "b": 3, "c": True, "d": ["1.5", 2], "e": {"f": "0.00001"}}


def test_days_and_moments_become_text() -> None:
    """A day is its ISO text, a moment is UTC whatever its offset, and a time of day stays one."""
    told = sealable(tomllib.loads("a = 2025-05-05\nb = 2025-05-05T14:00:00+02:00\nc = 07:30:00"))
    assert told == {"a": "2025-05-05", "b": "2025-05-05T12:00:00.000Z", "c": "07:30:00"}
    assert sealable([date(2025, 5, 5), time(7, 30)]) == ["2025-05-05", "07:30:00"]


def test_a_moment_without_an_offset_is_no_moment() -> None:
    """A moment without its offset is left without a Z, so that whatever asks for a moment refuses it."""
    assert sealable(tomllib.loads("a = 2025-05-05T14:00:00")) == {"a": "2025-05-05T14:00:00"}


def _refused(told: dict[str, object]) -> ValidationError:
    try:
        Calibration.model_validate(told)
    except ValidationError as wrong:
        return wrong
    raise AssertionError("nothing was refused")


def test_whole_figures_are_taken_where_a_figure_is_sealed() -> None:
    """`[20, 4]` is as good as `[20.0, 4.0]` where sealed figures are asked for, at any depth."""
    told: dict[str, object] = {
        "id": "c", "instrument": "i", "at": "2025-01-03T16:00:00Z", "result": "pass", "as_found": [[20, 4], [50, "19"]]
    }  # fmt: skip
    assert with_whole_figures_as_text(told, _refused(told))
    assert told["as_found"] == [["20", "4"], ["50", "19"]]
    assert Calibration.model_validate(told).as_found == ((20.0, 4.0), (50.0, 19.0))


def test_other_slips_are_left_alone() -> None:
    """Where the slip is another one nothing is changed, and that is said."""
    told: dict[str, object] = {"id": "c", "instrument": "i", "at": "2025-01-03T16:00:00Z", "result": "maybe"}
    assert not with_whole_figures_as_text(told, _refused(told))
    assert told["result"] == "maybe"
