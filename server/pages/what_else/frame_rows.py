"""The rows of frames on the shared-cause page, with a link to each joint; what stays is put together once."""

from collections.abc import Collection, Iterable, Sequence
from functools import lru_cache

from jinja2.filters import do_urlencode
from markupsafe import Markup, escape

from server.pages.frame.wording import local_moment
from server.work.frame_told import FrameTold

_KEPT = 5000
"""So many rows are kept as they stand on a page; one takes a kilobyte or two. Nobody's name is kept among them."""
_FRAME = Markup('  <tr><td><a href="/history/{}">{}</a>{}</td>\n    <td>{}</td>\n    <td>{}</td>\n{}')
_SHIPPED = Markup("{}    <td>{}</td></tr>\n")
_LINK = Markup('<a href="/history/{}/{}">{}</a>')
_HELD = Markup("<br><strong>legal hold</strong>")
_CELL, _CELL_ENDS = Markup("    <td>"), Markup("</td>\n")


def frame_rows(every: Iterable[FrameTold], zone: str, held: Collection[str], *, sees_customers: bool) -> Markup:
    """Give the rows of some frames; `held` are those under a legal hold."""
    return Markup("").join(
        part for told in every for part in _row(told, zone, held=told.frame in held, sees_customers=sees_customers)
    )


def _row(told: FrameTold, zone: str, *, held: bool, sees_customers: bool) -> Sequence[str]:
    """The parts of a row; what is no markup yet is escaped when they are joined."""
    frame = _frame(told.frame, told.joints, told.welded_ms, zone, held, sees_customers)
    shipped = _shipped(told.shipped_ms, zone, sees_customers)
    return (frame, told.customer, shipped) if sees_customers else (frame, shipped)


@lru_cache(maxsize=_KEPT)
def _frame(frame: str, joints: tuple[str, ...], welded_ms: int, zone: str, held: bool, named: bool) -> Markup:
    """What stands before the customer, whose cell is begun where they are named."""
    links, welded = _links(do_urlencode(frame), joints), local_moment(welded_ms, zone)
    return _FRAME.format(do_urlencode(frame), frame, _HELD if held else "", links, welded, _CELL if named else "")


@lru_cache(maxsize=_KEPT)
def _shipped(at_ms: int | None, zone: str, named: bool) -> Markup:
    shipped = "not shipped" if at_ms is None else local_moment(at_ms, zone)
    return _SHIPPED.format(_CELL_ENDS if named else "", shipped)


def _links(frame: str, joints: Sequence[str]) -> Markup:
    return Markup("; ").join(_LINK.format(frame, *_joint(each)) for each in joints)


@lru_cache(maxsize=_KEPT)
def _joint(joint: str) -> tuple[str, Markup]:
    """How a joint is called in an address, and its words; all frames of a design have the same."""
    name, _, attempt = joint.rpartition("#")
    return do_urlencode(name), escape(name if attempt == "1" else f"{name}, attempt {attempt}")
