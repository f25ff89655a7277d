"""The purge calculator's form: which design, size and set-up, its gas, and every hole to be changed or closed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from server.facts.design import Design, Hole, PurgeSetup
from server.pages.calculators.form import Choice, Form, read_form
from server.pages.calculators.quantity import Field
from server.plan.purge import open_holes

_FLOWS = ("L/min", "cfh", "mL/min")
_PARTS = ("ppm", "%")
_LENGTHS = ("mm", "in", "thou")
_OF_THE_SETUP = ("hole_", "added_", "leak_at")
NOWHERE = ""
"""The word a choice of members sends for none of them: the air outside, or no hole and no leak."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The design, its size and its set-up; none of them when a single volume is typed in."""

    design: Design | None
    size: str
    setup: PurgeSetup | None

    @property
    def drawn(self) -> str:
        """Name what the hole fields were drawn for, so that holes of one set-up are never taken for another's."""
        return f"{self.design.name}/{self.size}/{self.setup.id}" if self.design and self.setup else NOWHERE

    @property
    def holes(self) -> tuple[Hole, ...]:
        """Give the holes of the set-up, those between members first."""
        return (*open_holes(self.design, self.setup), *self.setup.outlets) if self.design and self.setup else ()

    def title(self, member: str) -> str:
        """Give a member's name in shop words."""
        members = self.design.members if self.design else ()
        return next((each.title for each in members if each.id == member), member)


def choose_setup(designs: Sequence[Design], asked: Mapping[str, str]) -> Chosen:
    """Find what was chosen; the first design, size and set-up where nothing fits."""
    name = asked.get("design", designs[0].name if designs else NOWHERE)
    design = next((each for each in designs if each.name == name), None)
    if design is None or not design.setups:
        return Chosen(None, NOWHERE, None)
    size = asked.get("size", "")
    setup = next((each for each in design.setups if each.id == asked.get("setup")), design.setups[0])
    return Chosen(design, size if size in design.sizes else design.sizes[0], setup)


def purge_form(chosen: Chosen, designs: Sequence[Design], asked: Mapping[str, str], target: tuple[str, str]) -> Form:
    """Read the form; `target` is the oxygen that stands there at first and where that figure comes from."""
    if asked.get("drawn", chosen.drawn) != chosen.drawn:
        asked = {name: value for name, value in asked.items() if not name.startswith(_OF_THE_SETUP)}
    asked = {**asked, "design": chosen.design.name if chosen.design else NOWHERE, "size": chosen.size}
    asked["setup"] = chosen.setup.id if chosen.setup else NOWHERE
    fields = [*_gas_fields(target), *(_hole_fields(chosen) if chosen.setup else _volume_fields())]
    return read_form(fields, _choices(chosen, designs), asked)


def _gas_fields(target: tuple[str, str]) -> list[Field]:
    figure, source = target
    return [
        Field("flow_l_per_min", "Purge flow", "L/min", _FLOWS, "10"),
        Field("oxygen_ppm", "Oxygen in the gas", "ppm", _PARTS, "2", "From its certificate."),
        Field("target_ppm", "Oxygen wanted", "ppm", _PARTS, figure, source),
        Field("leak_ml_per_min", "Air that leaks in", "mL/min", ("mL/min", "L/min"), "0"),
        Field("reading_ppm", "Oxygen read at the vent", "ppm", _PARTS, needed=False),
    ]


def _hole_fields(chosen: Chosen) -> list[Field]:
    holes = [
        Field(f"hole_{at}", _called(chosen, hole), "mm", _LENGTHS, f"{hole.diameter_mm:g}", hole.title, needed=False)
        for at, hole in enumerate(chosen.holes)
    ]
    return [*holes, Field("added_mm", "Its diameter", "mm", _LENGTHS, "5", needed=False)]


def _volume_fields() -> list[Field]:
    return [
        Field("volume_l", "Volume inside", "L", ("L", "cm³", "in³"), "2"),
        Field("hole_0", "Vent", "mm", _LENGTHS, "5", needed=False),
    ]


def _called(chosen: Chosen, hole: Hole) -> str:
    return f"{chosen.title(hole.member)} → {chosen.title(hole.into) if hole.into else 'the air'}"


def _choices(chosen: Chosen, designs: Sequence[Design]) -> list[Choice]:
    named = tuple((each.name, f"{each.name}, {each.title}") for each in designs)
    found = [Choice("design", "Design", (*named, (NOWHERE, "one tube or box, typed in")))]
    if chosen.design is None or chosen.setup is None:
        return found
    members = tuple((name, chosen.title(name)) for name in chosen.setup.members)
    setups = tuple((each.id, f"{each.id}, {len(each.members)} members") for each in chosen.design.setups)
    return [
        *found,
        Choice("size", "Size", tuple((each, each) for each in chosen.design.sizes)),
        Choice("setup", "Purge set-up", setups),
        Choice("leak_at", "The leak is at", members),
        Choice("added_from", "One more hole, from", ((NOWHERE, "no further hole"), *members)),
        Choice("added_into", "into", ((NOWHERE, "the air"), *members)),
    ]
