"""Chance events at ordinary joints: a value out of its limits, a wash run, and what was decided about it."""

from demo_data.generator.crew import REVISED
from demo_data.generator.dice import Dice
from demo_data.generator.joints import COVERED
from demo_data.generator.looks import asked_inside
from demo_data.generator.weld import Fate, Weld

PER_PASS = 0.012
_CHOICES = ((0.60, "accept"), (0.25, "rework"), (0.10, "use as is"), (0.05, "repair"))
_BEYOND = {
    "T1": {"travel": (122, 130), "mean_current": (52, 55), "volts": (13.0, 13.4), "interpass": (68, 74)},
    "T2": {"travel": (117, 125), "mean_current": (62, 65), "volts": (13.0, 13.4), "interpass": (68, 74)},
    "T3": {"travel": (107, 115), "mean_current": (38, 40), "volts": (12.0, 12.4)},
}
QUESTION = {
    "travel": "travel", "mean_current": "mean-current", "volts": "volts", "interpass": "interpass",
    "outside": "outside-colour", "inside": "inside-colour", "gap": "fit-up-gap",
}  # fmt: skip


def draw_fate(weld: Weld, dice: Dice) -> None:
    """Draw whether chance strikes this joint, and with what; at most one thing, decided before release."""
    if weld.quiet:
        return
    weld.with_wash = weld.seam.structural and dice.chance(0.08)
    kind = _kind(weld, dice)
    if kind is None:
        return
    quantity, run = kind
    weld.fate = Fate(quantity, run, _value(weld, quantity, dice), _choice(weld, dice))
    if quantity in ("mean_current", "volts"):
        # One thing at a time: fast enough that the heat input stays inside its own limit.
        weld.travel_mm_per_min = max(weld.travel_mm_per_min, 92)


def _kind(weld: Weld, dice: Dice) -> tuple[str, str] | None:
    structural = weld.seam.structural
    if structural and dice.chance(0.005):
        return "gap", ""
    if dice.chance(0.02 if structural else 0.004):
        return "outside", ""
    if asked_inside(weld.frame, weld.joint, weld.day) and dice.chance(0.04 if weld.day >= REVISED else 0.003):
        return "inside", ""
    for run in ("root", "fill") if structural else ("fill",):
        if dice.chance(PER_PASS):
            names = [name for name in _BEYOND[weld.procedure] if name != "interpass" or weld.seam.number % 4 == 0]
            return (names[dice.whole(0, len(names) - 1)], run) if run == "fill" else ("mean_current", run)
    return None


def _value(weld: Weld, quantity: str, dice: Dice) -> str:
    if quantity == "gap":
        return f"{dice.between(0.37, 0.45):.2f}"
    if quantity == "outside":
        return str(dice.whole(3, 4) if not weld.seam.structural or dice.chance(0.2) else 2)
    if quantity == "inside":
        return str(2 if weld.day >= REVISED and dice.chance(0.93) else 3)
    low, high = _BEYOND[weld.procedure][quantity]
    return f"{dice.between(low, high):.{0 if quantity == 'interpass' else 1}f}"


def _choice(weld: Weld, dice: Dice) -> str:
    choice = _CHOICES[dice.pick(*((share, number) for number, (share, _) in enumerate(_CHOICES)))][1]
    if not weld.seam.structural and choice == "repair":
        return "rework"
    if weld.joint in COVERED[weld.frame.design] and choice in ("rework", "repair"):
        return "accept"
    return "rework" if choice == "repair" and weld.seam.inside == "N" else choice
