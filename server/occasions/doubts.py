"""How sure a recorded value is: by the instrument named on it, or as a setting read off a panel."""

from collections.abc import Iterable, Mapping
from math import hypot

from server.facts.equipment import Acceptance, Instrument
from server.facts.figure import Figure
from server.facts.measured import Measured

# Picked from what lies in the drawer, not measured: nothing to be unsure of.
_PICKED = frozenset({"tungsten", "cup", "rod"})
# Made by the dozen for every pass; past the named fields' own checking they cost half.
_new = tuple.__new__
_SET = frozenset({"peak_current", "background_current", "on_time", "frequency", "pre_flow", "post_flow"})


class Doubts:
    """The standard uncertainties on file, by instrument and quantity."""

    def __init__(self, instruments: Iterable[Instrument]) -> None:
        self._on_file = {
            (instrument.id, each.quantity): (each.fixed, each.share)
            for instrument in instruments
            for each in instrument.reads
        }

    def figures(
        self, values: Mapping[str, Measured], entry: str, accept: Mapping[str, Acceptance]
    ) -> dict[str, Figure]:
        """Give every value of an entry with its doubt."""
        figures = {}
        on_file = self._on_file
        for name, measured in values.items():
            told = vars(measured)
            value, by = told["value"], told["by"]
            if by:
                parts = on_file.get((by, name))
                doubt = hypot(parts[0], parts[1] * value) if parts else None
            else:
                doubt = _without_instrument(name, measured, accept)
            figures[name] = _new(Figure, (value, doubt, told["how"], by, entry))
        return figures

    def figure(self, name: str, measured: Measured, entry: str, accept: Mapping[str, Acceptance]) -> Figure:
        """Give one value with its doubt."""
        return self.figures({name: measured}, entry, accept)[name]

    def of(self, instrument: str, quantity: str, value: float) -> float | None:
        """Give the standard uncertainty of a reading by one instrument; none when none is on file."""
        found = self._on_file.get((instrument, quantity))
        return hypot(found[0], found[1] * value) if found else None


def _without_instrument(name: str, measured: Measured, accept: Mapping[str, Acceptance]) -> float | None:
    if name in _PICKED:
        return 0.0
    if measured.how == "set" or (measured.how == "inherited" and name in _SET):
        share = accept.get("setting_uncertainty")
        return None if share is None else measured.value * share.value / 100
    return None
