"""What a limit of a written procedure may be about: shop words, unit, moment in the work, what to do beyond it."""

from typing import Literal, NamedTuple

Moment = Literal["before the arc", "at the arc", "after the arc"]
MOMENTS: tuple[Moment, ...] = ("before the arc", "at the arc", "after the arc")


class LimitKind(NamedTuple):
    """One kind of limit; `reading` names the quantity of the bench it is held against, none when it is computed."""

    words: str
    unit: str
    moment: Moment
    beyond: str
    reading: str | None = None


def _before(words: str, unit: str, beyond: str, reading: str | None = None) -> LimitKind:
    return LimitKind(words, unit, "before the arc", beyond, reading)


def _at(words: str, unit: str, beyond: str, reading: str | None = None) -> LimitKind:
    return LimitKind(words, unit, "at the arc", beyond, reading)


def _after(words: str, unit: str, beyond: str, reading: str | None = None) -> LimitKind:
    return LimitKind(words, unit, "after the arc", beyond, reading)


_ASK = "ask the quality lead before the next pass on this joint."

LIMIT_KINDS: dict[str, LimitKind] = {
    "gap": _before("fit-up gap", "mm", "Do not tack; fit the tube again.", "gap"),
    "filler_class": _before("filler class", "", "Do not weld with it; take a sleeve of the class named."),
    "rod": _before("rod diameter", "mm", "Change the rod.", "rod"),
    "gas": _before("gas", "", "Do not strike; connect the gas named."),
    "gas_purity": _before("gas purity", "%", "Do not use the cylinder; keep its certificate with it."),
    "dew_point": _before("gas dew point", "°C", "Stop the line; look for moisture in cylinder and hose.", "dew_point"),
    "tungsten": _before("tungsten diameter", "mm", "Change the tungsten.", "tungsten"),
    "tungsten_type": _before("tungsten type", "", "Change the tungsten."),
    "cup": _before("cup number", "#", "Change the cup.", "cup"),
    "lens": _before("gas lens", "", "Fit the lens."),
    "torch_flow": _before("torch gas flow", "L/min", "Set the flow at the cup and run a test bead.", "torch_flow"),
    "trailing_flow": _before("trailing gas flow", "L/min", "Set the trailing flow again.", "trailing_flow"),
    "pre_purge_flow": _before("purge flow before the arc", "L/min", "Set the purge flow again.", "pre_purge_flow"),
    "pre_purge": _before("pre-purge time", "min", "Wait; let the purge run on."),
    "pre_purge_volumes": _before("pre-purge volume changes", "volumes", "Wait; let the purge run on."),
    "oxygen": _before(
        "purge oxygen at arc start", "ppm", "Do not strike; purge on and look for a leak, a hose, a cylinder.", "oxygen"
    ),
    "pre_flow": _before("torch gas before the arc", "s", "Set the pre-flow again.", "pre_flow"),
    "interpass": _before("metal temperature before the next pass", "°C", "Wait until it has cooled.", "interpass"),
    "repairs": _before("repairs at one place", "repairs", "Do not repair again; the owner decides about the piece."),
    "cool_time": _before("pause since the last arc", "min", "Wait until the pause is over."),
    "peak_current": _at("peak current", "A", "Set the machine again.", "peak_current"),
    "background_current": _at("background current", "A", "Set the machine again.", "background_current"),
    "on_time": _at("peak on-time", "%", "Set the machine again.", "on_time"),
    "frequency": _at("pulse frequency", "Hz", "Set the machine again.", "frequency"),
    "mean_current": _at("mean current", "A", "Stop and " + _ASK, "mean_current"),
    "volts": _at("arc voltage", "V", "Look at arc length and earth; " + _ASK, "volts"),
    "travel": _at("travel speed", "mm/min", "Stop and " + _ASK),
    "heat_input": _at("heat input", "kJ/mm", "Let it cool; " + _ASK),
    "purge_flow": _at("purge flow while welding", "L/min", "Set the purge flow again.", "purge_flow"),
    "fusions": _at("times one place was fused", "fusions", "Do not fuse it again; the quality lead decides."),
    "post_flow": _after("torch gas after the arc", "s", "Set the post-flow; look at the colour.", "post_flow"),
    "colour": _after("weld colour", "grade", "Do not brush it off and do not weld over it; show the quality lead."),
}
