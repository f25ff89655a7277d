"""The checks on the shared-cause page, on the band and in their table; each is put together once for what it says."""

from collections.abc import Iterable
from functools import lru_cache

from markupsafe import Markup

from server.charts.time_band import Mark
from server.pages.frame.wording import local_moment
from server.work.what_checks import Beside

_KEPT = 5000
_ROW = Markup('<tr><td>{}</td><td>{}</td><td>{}</td><td class="mono quiet">{}</td></tr>')
_NOT_GOOD = Markup("<strong>not good</strong>")
_SHAPES = {
    "failed": Markup('<rect class="failed" x="{}" y="20" width="12" height="12"><title>{}</title></rect>'),
    "good": Markup('<circle class="good" cx="{}" cy="26" r="6"><title>{}</title></circle>'),
}


def check_rows(checks: Iterable[Beside], zone: str) -> Markup:
    """Give the rows of the table."""
    return Markup("").join(_row(each, zone) for each in checks)


def shapes(marks: Iterable[Mark]) -> Markup:
    """Give what stands on the band."""
    return Markup("").join(map(_shape, marks))


@lru_cache(maxsize=_KEPT)
def _row(check: Beside, zone: str) -> Markup:
    good = "good" if check.good else _NOT_GOOD
    return _ROW.format(local_moment(check.at_ms, zone), check.words, good, check.entry)


@lru_cache(maxsize=_KEPT)
def _shape(mark: Mark) -> Markup:
    return _SHAPES[mark.kind].format(mark.x - 6 if mark.kind == "failed" else mark.x, mark.words)
