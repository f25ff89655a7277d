"""When an entry is tapped after it happened: mostly within minutes, sometimes late, never across its neighbours."""

from demo_data.generator.days import MINUTE, at, clock_of
from demo_data.generator.dice import Dice
from demo_data.generator.story import Happening
from demo_data.generator.weld import SECOND, Weld

LATE = "entered when the shift was over"


def tap(happening: Happening, weld: Weld, dice: Dice) -> None:
    """Say when the welder tapped it: runs at once, so that their order holds; looks sometimes late."""
    moment = happening.at
    happening.tapped = moment + round(dice.between(4, 42)) * SECOND
    if moment <= max(weld.fill, weld.wash) or weld.quiet:
        return
    drawn = dice.between(0, 1)
    if drawn > 0.98 and not weld.seam.structural:
        end = at(clock_of(moment).date(), "16:40") + dice.whole(0, 240) * SECOND
        if end > moment + 30 * MINUTE:
            happening.tapped, happening.late_reason = end, LATE
    elif drawn > 0.92:
        happening.tapped = moment + round(dice.between(3, 12) * MINUTE)
    else:
        happening.tapped = moment + round(dice.between(6, 120)) * SECOND
