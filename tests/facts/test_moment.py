"""A moment is read and shown as Python's own calendar has it, and nothing else is read as one."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from server.facts.moment import parse_moment, show_moment

START = datetime(1970, 1, 1, tzinfo=UTC)
OF_FOUR_DIGITS = st.integers(
    (datetime(1000, 1, 1, tzinfo=UTC) - START) // timedelta(milliseconds=1),
    (datetime(9999, 12, 31, tzinfo=UTC) - START) // timedelta(milliseconds=1),
)


@given(OF_FOUR_DIGITS)
@example(-1)
@example(1_709_251_199_999)
def test_a_moment_is_shown_and_read_back(moment_ms: int):
    """Before and after 1970, at the end of a day and of a leap year's February, to the millisecond."""
    shown = (START + timedelta(milliseconds=moment_ms)).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    assert show_moment(moment_ms) == shown
    assert parse_moment(shown) == moment_ms


@pytest.mark.parametrize(
    ("text", "moment_ms"),
    [("1970-01-01T00:00:00Z", 0), ("1970-01-01T00:00:01.5Z", 1500), ("1970-01-01T23:59:59.25Z", 86_399_250)],
)
def test_fewer_digits_are_read(text: str, moment_ms: int):
    """Thousandths may be left out, all of them or the last ones."""
    assert parse_moment(text) == moment_ms


@pytest.mark.parametrize(
    "text",
    [
        "2025-02-30T12:00:00.000Z", "2025-03-18T24:00:00.000Z", "2025-03-18T23:59:60.000Z", "2025-03-18T12:05Z",
        "2025-03-18 12:05:00.000Z", "2025-03-18T12:05:00.000", "2025-03-18T12:05:00.0000Z", "2025-03-18T12:05:00.Z",
        "2025-077T12:05:00.000Z", "2025-03-18T12:05:00.000+00:00", "", b"2025-03-18T12:05:00.000Z", 5, None, [],
    ],
)  # fmt: skip
def test_anything_else_is_no_moment(text: object):
    """A day, an hour or a second that is not, another way of writing, and what is no text are refused."""
    with pytest.raises(ValueError, match=r"."):
        parse_moment(text)  # type: ignore[arg-type]
