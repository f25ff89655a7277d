"""The values an entry carries: what was set, read, counted, typed or inherited, as decimal text with its unit."""

from typing import NamedTuple

from demo_data.generator.dice import Dice

Values = dict[str, dict[str, str]]
UNITS = {
    "oxygen": "ppm", "peak_current": "A", "background_current": "A", "on_time": "%", "frequency": "Hz",
    "mean_current": "A", "volts": "V", "arc_on": "s", "torch_flow": "L/min", "purge_flow": "L/min",
    "pre_purge_flow": "L/min", "pre_flow": "s", "post_flow": "s", "interpass": "°C", "tungsten": "mm", "cup": "#",
    "rod": "mm", "gap": "mm", "dew_point": "°C", "pressure": "bar", "remnant": "g", "deviation": "mm", "hardness": "HV",
}  # fmt: skip


class Settings(NamedTuple):
    """What stands on the panel for one procedure on one shift."""

    peak: int
    background: int
    on_time: int
    frequency: str
    torch_flow: str
    purge_flow: str
    pre_purge_flow: str
    pre_flow: int
    post_flow: int
    cup: int

    @property
    def mean(self) -> float:
        """Mean current [A] of the pulse: peak and background by their shares of the time."""
        share = self.on_time / 100
        return self.peak * share + self.background * (1 - share)


_PEAK = {"T1": (96, 70, 105), "T2": (108, 101, 125), "T3": (62, 45, 75), "R1": (98, 70, 105)}
_FREQUENCY = {"T1": (1.4, 2.2), "T2": (1.4, 2.2), "T3": (1.7, 2.8), "R1": (1.4, 2.2)}
_TORCH = {"T1": (8, 9.5), "T2": (8, 10), "T3": (7, 8.5), "R1": (8.6, 10.4)}
_PURGE = {"T1": (2.5, 4.5), "T2": (2.5, 4.5), "T3": (2.4, 3.6), "R1": (2.5, 4.5)}
_AFTER = {"T1": (19, 22), "T2": (19, 22), "T3": (13, 16), "R1": (21, 24)}
_BEFORE = {"T1": 2, "T2": 2, "T3": 2, "R1": 3}
_CUP = {"T1": 8, "T2": 8, "T3": 7, "R1": 10}
MEAN_A = {"T1": (31.5, 49.0), "T2": (37.4, 58.0), "T3": (23.0, 34.8), "R1": (31.5, 48.5)}
TRAVEL = {"T1": (58, 115), "T2": (53, 105), "T3": (48, 95), "R1": (53, 105)}
"""Where ordinary travel [mm/min] stays: a little inside the procedures, so that chance alone breaks no limit."""
SPEED = {"W01": (82, 9), "W02": (76, 8), "W03": (88, 11), "W04": (70, 12)}


def settings_for(procedure: str, dice: Dice) -> Settings:
    """Draw what a welder sets for one procedure at the start of a shift."""
    mean, low, high = _PEAK[procedure]
    return Settings(
        peak=round(dice.normal(mean, 3, low, high)),
        background=dice.whole(16, 18),
        on_time=dice.pick((0.7, 25), (0.2, 28), (0.1, 30)),
        frequency=f"{dice.between(*_FREQUENCY[procedure]):.1f}",
        torch_flow=f"{dice.between(*_TORCH[procedure]):.1f}",
        purge_flow=f"{dice.between(*_PURGE[procedure]):.1f}",
        pre_purge_flow=f"{dice.between(5.2, 5.8 if procedure == 'T3' else 8.6):.1f}",
        pre_flow=_BEFORE[procedure] + dice.whole(0, 1),
        post_flow=dice.whole(*_AFTER[procedure]),
        cup=_CUP[procedure],
    )


def value(name: str, number: object, how: str, by: str | None = None) -> Values:
    """Write one value with where it comes from."""
    measured = {"value": str(number), "unit": UNITS[name], "how": how}
    return {name: measured | ({"by": by} if by else {})}


def set_values(settings: Settings, first: bool) -> Values:
    """Write the settings: set and read at the first pass of a shift, inherited and shown after that."""
    how, read, typed = ("set", "read", "typed") if first else ("inherited",) * 3
    values = {
        **value("peak_current", settings.peak, how),
        **value("background_current", settings.background, how),
        **value("on_time", settings.on_time, how),
        **value("frequency", settings.frequency, how),
        **value("torch_flow", settings.torch_flow, read, "FM-1"),
        **value("purge_flow", settings.purge_flow, read, "FM-1"),
        **value("pre_purge_flow", settings.pre_purge_flow, read, "FM-1"),
    }
    if first:
        values |= value("pre_flow", settings.pre_flow, how) | value("post_flow", settings.post_flow, how)
        values |= value("tungsten", "1.6", typed) | value("cup", settings.cup, typed)
    return values


def counted(machine: str, mean_a: float, volts: float, arc_on_s: float) -> Values:
    """Write what the power source's counter says about one run."""
    return {
        **value("mean_current", f"{mean_a:.1f}", "counted", machine),
        **value("volts", f"{volts:.1f}", "counted", machine),
        **value("arc_on", f"{arc_on_s:.1f}", "counted", machine),
    }
