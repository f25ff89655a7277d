"""For whom each frame is made: customers of the story, dealers, the clinic, and names from two invented lists."""

from demo_data.generator.frames import Frame
from demo_data.generator.plan import Plan

_FIRST = (
    "Alda", "Bero", "Cilla", "Dorn", "Edda", "Finn", "Gerda", "Halle", "Isko", "Jette", "Karl", "Lotte", "Mads",
    "Nele", "Orla", "Pella", "Runa", "Sten", "Tilda", "Ulf", "Vera", "Wim", "Ylva", "Zeno", "Asta", "Bodo", "Dina",
    "Egil", "Frida",
)  # fmt: skip
_LAST = (
    "Harrow", "Lindqvar", "Mossby", "Tarnhold", "Ekeborn", "Sandvar", "Grimsel", "Ostrand", "Kettering", "Valdry",
    "Brome", "Solheim", "Nørrik", "Penhallow", "Drummore", "Skarsen", "Fallow", "Westrand", "Quill", "Abernold",
    "Torvik", "Marne", "Hesk", "Lorrimer", "Undset", "Carrow", "Bystrom", "Farland", "Rook",
)  # fmt: skip
_STREETS = ("Ropewalk", "Gannet Lane", "Kelp Street", "Pier Row", "Chandlers Yard", "Tern Close", "Harbour Steps")
_PLACES = ("Merrowby", "Skarholm", "Oster Merrow", "Inner Ness", "Lower Quay")
DEALERS, CLINIC = "C-07", "C-08"


def customer_of(plan: Plan, frame: Frame) -> str:
    """Give the customer a frame is made for."""
    named: dict[int, str] = plan.facts["customers"]
    if frame.number in named:
        return named[frame.number]
    if frame.design == "WHB" or (frame.design == "LST" and frame.number % 3 == 0):
        return DEALERS
    if frame.design == "PLV" and frame.number % 4 == 0:
        return CLINIC
    return f"C-{12 + frame.number % 29}"


def made_up(number: int, prefix: str = "C-") -> dict[str, str]:
    """Give a customer out of the two lists."""
    name = f"{_FIRST[number % 29]} {_LAST[(number * 7 + number // 29) % 29]}"
    street = f"{1 + number * 3 % 90} {_STREETS[number % 7]}"
    place = f"{_PLACES[number % 5]}, Isle of Ketterholm"
    return {"id": f"{prefix}{number}", "name": name, "address": f"{street}, {place}"}
