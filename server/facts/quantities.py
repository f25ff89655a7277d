"""The quantities a bench records: the unit each is sealed in, and the range outside which a number is no reading."""

from typing import NamedTuple


class Quantity(NamedTuple):
    """A quantity's unit as sealed, the physically possible range, and its name in shop words."""

    unit: str
    least: float
    most: float
    words: str


QUANTITIES: dict[str, Quantity] = {
    "oxygen": Quantity("ppm", 0, 1_000_000, "purge oxygen"),
    "peak_current": Quantity("A", 0, 1000, "peak current"),
    "background_current": Quantity("A", 0, 1000, "background current"),
    "on_time": Quantity("%", 0, 100, "peak on-time"),
    "frequency": Quantity("Hz", 0, 20_000, "pulse frequency"),
    "mean_current": Quantity("A", 0, 1000, "mean current"),
    "volts": Quantity("V", 0, 200, "arc voltage"),
    "arc_on": Quantity("s", 0, 86_400, "arc-on time"),
    "arc_energy": Quantity("J", 0, 1e9, "measured arc energy"),
    "torch_flow": Quantity("L/min", 0, 100, "torch gas flow"),
    "trailing_flow": Quantity("L/min", 0, 100, "trailing gas flow"),
    "purge_flow": Quantity("L/min", 0, 100, "purge flow while welding"),
    "pre_purge_flow": Quantity("L/min", 0, 100, "purge flow before the arc"),
    "pre_flow": Quantity("s", 0, 3600, "torch gas before the arc"),
    "post_flow": Quantity("s", 0, 3600, "torch gas after the arc"),
    "interpass": Quantity("°C", -50, 1700, "metal temperature before the next pass"),
    "tungsten": Quantity("mm", 0, 10, "tungsten diameter"),
    "cup": Quantity("#", 0, 40, "cup number"),
    "rod": Quantity("mm", 0, 10, "rod diameter"),
    "gap": Quantity("mm", 0, 50, "fit-up gap"),
    "dew_point": Quantity("°C", -150, 60, "gas dew point"),
    "pressure": Quantity("bar", 0, 400, "cylinder pressure"),
    "remnant": Quantity("g", 0, 100_000, "filler left in the sleeve"),
    "deviation": Quantity("mm", -100, 100, "geometry deviation"),
    "hold": Quantity("s", 0, 36_000, "hold time after the arc"),
    "angle": Quantity("°", 0, 360, "bend angle"),
    "wall": Quantity("mm", 0, 50, "wall thickness"),
    "hardness": Quantity("HV", 0, 3000, "hardness"),
}
