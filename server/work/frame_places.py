"""Where a joint is now: in work, under another tube, finished, with a customer, back, or cut out."""

from typing import Literal, get_args

from server.facts.frame_papers import permissions_of
from server.occasions.tables import Tables
from server.occasions.uses import Use

Place = Literal["in work", "covered", "finished", "back in the house", "shipped", "removed"]
PLACES: tuple[Place, ...] = get_args(Place)


def place_of(tables: Tables, use: Use, *, home: bool) -> Place:
    """Tell where the joint of a pass is; `home` says that its frame came back and has not left again."""
    if tables.uses.made_again(use):
        return "removed"
    if use.frame in tables.shipped:
        return "back in the house" if home else "shipped"
    permitted = permissions_of(tables.registers, use.frame)
    if any(each.permits in ("final inspection", "release") for each in permitted):
        return "finished"
    drawing = tables.drawing_of(use.frame)
    hiding = {cover.by for cover in drawing.covers.get(use.joint, ())} if drawing else set()
    return "covered" if hiding & tables.uses.welded(use.frame) else "in work"
