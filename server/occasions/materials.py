"""Filler lots and heats as occasions, each with the composition limits that hold for it."""

from collections.abc import Iterator

from server.facts.materials import CompositionLimits
from server.facts.occasion_material import MaterialOccasion
from server.facts.published_compositions import published
from server.occasions.about import About, asked_about
from server.occasions.tables import Tables


def material_occasions(tables: Tables, about: About = None) -> Iterator[MaterialOccasion]:
    """Give every filler lot and every heat, or some."""
    for lot in map(tables.registers.filler_lots.__getitem__, asked_about(tables.registers.filler_lots, about)):
        day = lot.released.toordinal() if lot.released else tables.today
        limits = _limits(tables, lot.filler_class)
        yield MaterialOccasion(lot.id, True, lot.filler_class, lot.composition, limits, tables.at(day))
    for heat in map(tables.registers.heats.__getitem__, asked_about(tables.registers.heats, about)):
        day = heat.released.toordinal() if heat.released else tables.today
        limits = _limits(tables, heat.metal)
        yield MaterialOccasion(heat.id, False, heat.metal, heat.composition, limits, tables.at(day))


def _limits(tables: Tables, name: str) -> CompositionLimits | None:
    """The shop's own table stands above a published one; a metal may be named longer than its table."""
    own = tables.registers.compositions.get(name)
    return own or published(name) or published(name.partition(",")[0].removesuffix(" tube"))
