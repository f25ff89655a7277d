"""A written procedure of an invented ladder shop that writes cubic feet, inches and Fahrenheit."""

from server.facts.procedure import Procedure
from server.procedures.reading import read_procedure
from server.sheets.complaint import Complaint, SheetRefused

LADDER = """\
name = "LD"
revision = "1"
title = "Rungs on rails"
joint_kind = "rung on rail"
valid_from = 2031-02-03
marked = "Invented for the proofs; no recommendation."
cleaning = ["Wipe it."]
[material]
metals = ["titanium tube"]
thickness = { low = 0.9, high = 1.2, unit = "mm" }
diameter = { low = 1, unit = "in" }
filler_classes = ["ERTi-2"]
[limits]
oxygen = { high = 0.003, unit = "%", source = "QR-1", plan = { when = "every pass", how = "read" } }
torch_flow = { low = 15, high = 20, unit = "CFH", source = "QR-1", plan = { when = "first of shift", how = "read" } }
interpass = { high = 140, unit = "°F", source = "QR-1", plan = { when = "one in n", n = 3 } }
rod = { allowed = [1.1], unit = "mm", source = "QR-1", plan = { when = "every fill" } }
peak_current = { low = 60, high = 90, unit = "A", source = "QR-1", plan = { when = "first of shift", how = "set" } }
heat_input = { high = 6.35, unit = "kJ/in", k = 1, source = "QR-1", plan = { when = "machine only" } }
colour = [
  { side = "outside", zone = "bead", high = 1, unit = "grade", source = "shop", plan = { when = "every joint" } },
  { side = "inside", zone = "bead", high = 2, unit = "grade", source = "shop", plan = { when = "every joint" } },
]
[[supports]]
id = "QR-1"
dated = 2031-01-15
standard = "the ladder shop's own"
thickness = { low = 0.8, high = 1.6, unit = "mm" }
diameter = { low = 19, unit = "mm" }
[supports.ranges]
oxygen = { high = 30, unit = "ppm" }
torch_flow = { low = 7, high = 10, unit = "L/min" }
peak_current = { low = 55, high = 90, unit = "A" }
[[cautions]]
where = "at the arc"
words = "Mind the arc."
authority = "the ladder shop's own"
"""


def ladder(**changes: str) -> Procedure:
    """The procedure as it stands, or with pieces of its text exchanged: old="new"."""
    return read_procedure(changed(changes), "ladder.toml")


def changed(changes: dict[str, str]) -> str:
    """The text with each old piece, found once, exchanged for the new."""
    text = LADDER
    for old, new in changes.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def refused(changes: dict[str, str]) -> tuple[Complaint, ...]:
    """The complaints about the changed text; a text that is taken fails the proof."""
    try:
        read_procedure(changed(changes), "ladder.toml")
    except SheetRefused as refusal:
        return refusal.complaints
    raise AssertionError("the text was taken")
