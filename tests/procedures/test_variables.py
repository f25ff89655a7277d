"""What a procedure's own lines say of the variables a code calls essential."""

from server.procedures.variables import said_of
from tests.procedures.ladder import ladder

OXYGEN = 'oxygen = { high = 0.003, unit = "%", source = "QR-1", plan = { when = "every pass", how = "read" } }\n'
GAS = '[limits]\ngas = { allowed = ["argon"], source = "QR-1", plan = { when = "never" } }'
TRAILING = 'gas = { line = "trailing", allowed = ["helium"], source = "QR-1", plan = { when = "never" } }'


def test_filler_is_used_where_a_class_is_allowed() -> None:
    """A sheet with classes adds filler, one with none does not."""
    assert said_of(ladder(), "filler") == ("added",)
    assert said_of(ladder(**{'filler_classes = ["ERTi-2"]': "filler_classes = []"}), "filler") == ()


def test_a_gas_is_used_where_its_line_has_a_limit() -> None:
    """The purge's oxygen limit makes a backing gas; without it there is none; no gas named is not said."""
    gas = ladder(**{"[limits]": GAS})
    assert [said_of(gas, each) for each in ("torch gas", "backing gas", "trailing gas")] == [("argon",), ("argon",), ()]
    bare = ladder(**{"[limits]": GAS, OXYGEN: "", 'oxygen = { high = 30, unit = "ppm" }\n': ""})
    assert said_of(bare, "backing gas") == ()
    assert said_of(ladder(), "backing gas") is None
    other = ladder(**{"[limits]": f"[limits]\n{TRAILING}"})
    assert (said_of(other, "trailing gas"), said_of(other, "torch gas")) == (("helium",), None)


def test_what_is_typed_stands_above() -> None:
    """A variable under [variables] is taken as written, and any name may stand there."""
    told = ladder(**{"[limits]": '[variables]\nfiller = []\n"metal group" = ["M-1"]\n[limits]'})
    assert [said_of(told, each) for each in ("filler", "metal group", "brush")] == [(), ("M-1",), None]
