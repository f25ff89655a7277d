"""Rod sleeves as they were told of: opened, closed, read, or never opened at all."""

from server.occasions.build import Shop
from server.occasions.known import Known
from server.occasions.sleeves import sleeve_occasions
from tests.judgement.barrow_works import registers_with
from tests.judgement.log_language import read_log


def shop_told(log: str) -> Shop:
    told = read_log(log, "2031-03-10", {}, {})
    return Shop(Known(registers_with([], {}), told.of("sleeve"), told.clocks, told.of("pass")))


def test_a_sleeve_read_or_closed_without_an_opening_is_no_opening():
    """Rod ends read in a box nobody logged as opened are known; the sleeve has no opening to be judged by."""
    tables = shop_told("08:00 sleeve S-10 checked rod_ends=ERTi-2\n09:00 sleeve S-10 closed").tables
    assert list(sleeve_occasions(tables)) == []
    assert tables.rods.openings("S-10") == []
    (use,) = shop_told("08:00 sleeve S-10 checked rod_ends=ERTi-2\n09:00 pass A1 fill").tables.uses.all
    used = tables.rods.used("S-10", use.at, use.day)
    assert (used.read_class, used.was_open) == ("ERTi-2", None)


def test_each_opening_has_what_came_before_the_next():
    """A sleeve opened twice has two openings, each with its own closing and its own readings."""
    log = "08:00 sleeve S-10 opened\n09:00 sleeve S-10 closed\n10:00 sleeve S-10 opened\n"
    first, second = shop_told(log + "11:00 sleeve S-10 checked rod_ends=ERTi-9").tables.rods.openings("S-10")
    assert (first.closed is not None, len(first.later)) == (True, 0)
    assert (second.closed, [each.entry.rod_ends for each in second.later]) == (None, ["ERTi-9"])
