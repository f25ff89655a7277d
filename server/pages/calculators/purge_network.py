"""The network that a purge form describes: the set-up's own, with its holes as they were changed."""

from collections.abc import Iterator
from dataclasses import replace

from server.pages.calculators.form import Form
from server.pages.calculators.purge_form import NOWHERE, Chosen
from server.physics.errors import UnusableInput
from server.physics.inputs import between
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from server.plan.purge import purge_network

_THE_VOLUME = "the volume"
_THROUGH_MM = 300.0
"""Length of a volume typed in; it only counts for a dead end, and a volume with an inlet and a vent is none."""


def form_network(chosen: Chosen, form: Form) -> PurgeNetwork:
    """Make the network; a hole left empty or 0 is closed."""
    flow, oxygen = form.number("flow_l_per_min"), form.number("oxygen_ppm")
    if chosen.design is None or chosen.setup is None:
        return _one_volume(form, flow, oxygen)
    drawn = purge_network(chosen.design, chosen.size, chosen.setup, flow, oxygen)
    leak = form.number("leak_ml_per_min")
    members = tuple(
        replace(each, leak_ml_per_min=leak) if each.name == form.chosen["leak_at"] else each for each in drawn.members
    )
    return PurgeNetwork(members, (*_changed(drawn, form), *_added(form)), drawn.inlets)


def _one_volume(form: Form, flow_l_per_min: float, oxygen_ppm: float) -> PurgeNetwork:
    vent = PurgeHole(_THE_VOLUME, None, 1.0)
    return PurgeNetwork(
        (PurgeMember(_THE_VOLUME, form.number("volume_l"), _THROUGH_MM, form.number("leak_ml_per_min")),),
        tuple(_sized([vent], form)),
        (GasInlet(_THE_VOLUME, flow_l_per_min, oxygen_ppm),),
    )


def _changed(drawn: PurgeNetwork, form: Form) -> Iterator[PurgeHole]:
    return _sized(list(drawn.holes), form)


def _sized(holes: list[PurgeHole], form: Form) -> Iterator[PurgeHole]:
    for at, hole in enumerate(holes):
        name = f"hole_{at}"
        diameter_mm = between(name, form.maybe(name) or 0.0, 0.0, 100.0, "0 or nothing closes it.")
        if diameter_mm > 0.0:
            yield replace(hole, diameter_mm=diameter_mm)


def _added(form: Form) -> Iterator[PurgeHole]:
    member, into = form.chosen["added_from"], form.chosen["added_into"]
    diameter_mm = form.maybe("added_mm") or 0.0
    if member == NOWHERE or diameter_mm == 0.0:
        return
    if into == member:
        raise UnusableInput("added_mm", into, "two different members", "Choose another member, or the air.")
    yield PurgeHole(member, into or None, between("added_mm", diameter_mm, 0.0, 100.0))
