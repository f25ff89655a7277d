"""A frame design that exists only here: a hand cart with two bent rails, a cross tube, a post and a brace."""

from server.facts.design import Design
from server.plan.reading import read_design
from server.sheets.complaint import Complaint, SheetRefused

CART = """\
name = "CART"
title = "Hand cart"
kind = "hand cart"
sizes = ["S", "L"]
view = [0.3, -0.4]
order = ["A2", "A1", "A3", "A5", "A4", "B1"]
members = [
  { id = "RL", title = "left rail", metal = "3-2.5", od_mm = 30, wall_mm = 1, length_mm = { S = 474, L = 574 }, between = ["a_l", "b_l", "c_l"], bend_mm = 60 },
  { id = "RR", title = "right rail", metal = "3-2.5", od_mm = 30, wall_mm = 1, length_mm = { S = 474, L = 574 }, between = ["a_r", "b_r", "c_r"], bend_mm = 60 },
  { id = "X", title = "cross tube", metal = "3-2.5", od_mm = 24, wall_mm = 0.9, length_mm = 270, between = ["x_l", "x_r"] },
  { id = "P", title = "post", metal = "6-4", od_mm = 20, wall_mm = 1.5, length_mm = 188, between = ["x", "top"] },
  { id = "BR", title = "brace", metal = "3-2.5", od_mm = 12, wall_mm = 0.9, length_mm = 240, between = ["x_l", "mid"] },
  { id = "eye", title = "rope eye", metal = "6-4", od_mm = 6, wall_mm = 3, length_mm = 8, shape = "part", closed = false },
]
joints = [
  { id = "A1", title = "cross tube on left rail", parts = ["X", "RL"], procedure = "LD", seam_mm = 76, inside = "P", at = "x_l", stage = "one" },
  { id = "A2", title = "cross tube on right rail", parts = ["X", "RR"], procedure = "LD", seam_mm = 76, inside = "P", at = "x_r", stage = "one" },
  { id = "A3", title = "post on cross tube", parts = ["P", "X"], procedure = "LD", seam_mm = 63, inside = "F", at = "x", stage = "two", twelve = "forward" },
  { id = "A4", title = "brace on left rail", parts = ["BR", "RL"], procedure = "LD", seam_mm = 40, inside = "N", at = "x_l", stage = "two" },
  { id = "A5", title = "brace on post", parts = ["BR", "P"], procedure = "LD", seam_mm = 40, inside = "N", at = "mid", stage = "two" },
  { id = "B1", title = "rope eye on post", parts = ["eye", "P"], procedure = "LE", seam_mm = 19, inside = "N", at = "P", part_way = 0.75, stage = "three", runs = ["fill"], structural = false, quartered = false },
]
covers = [
  { seam = "A1", quarter = "q9", by = "A4", reason = "the brace lies over it" },
]
needs = [
  { step = "C1", first = ["A1:tacked", "A2:tacked"], reason = "squareness is measured on the tacked rails" },
  { step = "A1:welded", first = ["C1"], reason = "the rails are measured before they are welded fast" },
  { step = "A3:tacked", first = ["A2:finished"], reason = "the post stands on a cross tube that holds" },
]
holes = [
  { member = "RL", into = "X", diameter_mm = 8, joint = "A1" },
  { member = "RR", into = "X", diameter_mm = 8, joint = "A2" },
  { member = "X", into = "P", diameter_mm = 6, joint = "A3" },
  { member = "RL", into = "BR", diameter_mm = 4, joint = "A4" },
  { member = "P", into = "BR", diameter_mm = 4, joint = "A5" },
]
geometry = [{ id = "C1", title = "squareness", limit_mm = 1.5, source = "drawing" }]
[nodes]
a_l = [0, 0, -150]
a_r = [0, 0, 150]
b_l = [300, 0, -150]
b_r = [300, 0, 150]
c_l = { S = [300, 200, -150], L = [300, 300, -150] }
c_r = { S = [300, 200, 150], L = [300, 300, 150] }
x = [120, 0]
x_l = [120, 0, -150]
x_r = [120, 0, 150]
mid = [120, 150]
top = [120, 200]
[[setups]]
id = "one"
stage = "one"
members = ["RL", "RR", "X"]
inlet = "RL"
outlets = [{ member = "RR", diameter_mm = 5, title = "right rail cap" }]
volume_l = { S = 0.68, L = 0.81 }
[[setups]]
id = "two"
stage = "two"
later_stages = ["three"]
members = ["RL", "RR", "X", "P", "BR"]
inlet = "RL"
outlets = [{ member = "RR", diameter_mm = 5 }, { member = "P", diameter_mm = 3 }]
"""  # noqa: E501


def cart(*changes: tuple[str, str]) -> Design:
    """The design as it stands, or with pieces of its text, each found once, exchanged."""
    return read_design(changed(changes), "cart.toml")


def changed(changes: tuple[tuple[str, str], ...]) -> str:
    """The text with each old piece exchanged for the new."""
    text = CART
    for old, new in changes:
        assert text.count(old) == 1, (old, text.count(old))
        text = text.replace(old, new)
    return text


def refused(*changes: tuple[str, str]) -> tuple[Complaint, ...]:
    """The complaints about the changed text; a text that is taken fails the proof."""
    try:
        read_design(changed(changes), "cart.toml")
    except SheetRefused as refusal:
        return refusal.complaints
    raise AssertionError("the text was taken")
