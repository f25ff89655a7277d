"""Rod sleeves as occasions, one for each opening."""

from collections.abc import Iterator

from server.facts.occasion_sleeve import SleeveOccasion
from server.occasions.about import About, asked_about
from server.occasions.rods import Opening
from server.occasions.tables import Tables

_MS_PER_DAY = 86_400_000.0


def sleeve_occasions(tables: Tables, about: About = None) -> Iterator[SleeveOccasion]:
    """Give every opening of every sleeve, or of some."""
    for sleeve in asked_about(tables.rods.opened, about):
        for opening in tables.rods.openings(sleeve):
            yield _sleeve(tables, opening)


def _sleeve(tables: Tables, opening: Opening) -> SleeveOccasion:
    opened = opening.opened
    label = tables.rods.label(opening.sleeve)
    closed_ms = opening.closed.at.at_ms if opening.closed else None
    end_ms = closed_ms if closed_ms is not None else tables.end_ms
    later = opening.later[-1] if opening.later else None
    return SleeveOccasion(
        subject=opening.sleeve,
        sleeve=opening.sleeve,
        opened=opened.at,
        entry=opened.entry.id,
        closed_ms=closed_ms,
        open_days=max(0.0, (end_ms - opened.at.at_ms) / _MS_PER_DAY),
        label_class=label.filler_class if label else None,
        read_at_opening=opened.entry.rod_ends,
        read_later=later.entry.rod_ends if later else None,
        read_later_entry=later.entry.id if later else None,
        accept=tables.at(tables.days.day_of(opened.at.at_ms)),
    )
