"""How long work tells how far it is: on a screen in one line, in a log seldom, and quick work not at all."""

import io

import pytest

from server.commands._telling import Telling


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def clock() -> list[float]:
    """A clock that stands where it is put [s]."""
    return [100.0]


def test_a_screen_has_one_line_written_over(clock: list[float]):
    """Each telling takes the place of the one before, with what is left once that is known; the end clears the line."""
    out = Screen()
    tells = Telling(out, lambda: clock[0])
    tells("lines", 0, 1000)
    for done, at in ((100, 101.0), (500, 110.0)):
        clock[0] = at
        tells("lines", done, 1000)
    tells.end()
    first, second, end = out.getvalue().split("\r\x1b[K")[1:]
    assert (first, end) == ("lines: 100 of 1,000, 10 %", "")
    assert second == "lines: 500 of 1,000, 50 %, about 10 s more"


def test_a_log_is_told_each_half_minute(clock: list[float]):
    """Where nobody looks on, half an hour of work is sixty lines; what nobody can foresee tells its time."""
    out = io.StringIO()
    tells = Telling(out, lambda: clock[0])
    for second in range(1, 1801):
        clock[0] = 100.0 + second
        tells("pages", 0, 0)
    assert len(out.getvalue().splitlines()) == 60
    assert out.getvalue().splitlines()[-1] == "pages: 30 min so far"


def test_quick_work_says_nothing(clock: list[float]):
    """Work that is over at once leaves neither a line nor the signs that clear one."""
    out = Screen()
    tells = Telling(out, lambda: clock[0])
    tells("lines", 0, 10)
    tells("lines", 10, 10)
    tells.end()
    assert out.getvalue() == ""


def test_what_comes_to_no_end_is_told_again(clock: list[float]):
    """While nothing new is told, the last thing is told once more with the time it lasts; never after the end."""
    out = Screen()
    tells = Telling(out, lambda: clock[0])
    tells.again()
    tells("the shop", 0, 0)
    clock[0] = 160.0
    tells.again()
    tells.end()
    clock[0] = 170.0
    tells.again()
    assert out.getvalue().split("\r\x1b[K")[1:] == ["the shop: 1 min so far", ""]
