"""The columns of the band that have a pass are those of every pass, and are kept while the passes are the same."""


import pytest

from server.charts.time_band import Scale
from server.record.book_of_lines import Record
from server.work import passes_laid
from server.work.passes_laid import PassesLaid
from server.work.what_else import what_else
from server.work.what_things import Thing
from tests.story.log import LINES, Tablet
from tests.work.small_shop import a_pass, send


def laid(shop: Record, *things: Thing) -> PassesLaid:
    with shop.reads() as reads:
        return PassesLaid(what_else(reads, things).sought)


def plain(passes: PassesLaid, scale: Scale) -> tuple[int, ...]:
    return tuple(dict.fromkeys(scale.x(use.at.at_ms) for use in passes.sought.uses))


def scale_of(passes: PassesLaid) -> Scale:
    first_ms, last_ms = passes.ends_ms
    return Scale(first_ms, last_ms - first_ms)


def test_the_columns_of_every_pass(shop: Record, monkeypatch: pytest.MonkeyPatch):
    """Asked again the very same is given; by another scale, of another thing, after one more pass what holds then."""
    line, sleeve = Thing("line", LINES["purge_line"]), Thing("sleeve", "S-1")
    before = laid(shop, line)
    scale = scale_of(before)
    first = before.columns(scale)
    assert first == plain(before, scale)
    assert laid(shop, line).columns(scale) is first
    wide = Scale(scale.first_ms, 3 * scale.span_ms)
    assert before.columns(wide) == plain(before, wide) != first
    assert laid(shop, sleeve).columns(scale) == plain(laid(shop, sleeve), scale) != first
    first = before.columns(scale)
    send(shop, a_pass(Tablet("SLATE", "b5"), "1:50", "A"))
    assert laid(shop, line).columns(scale) == plain(laid(shop, line), scale) != first
    monkeypatch.setattr(passes_laid, "_KEPT", 1)
    kept = laid(shop, line).columns(scale)
    laid(shop, sleeve).columns(scale)
    again = laid(shop, line).columns(scale)
    assert (again, again is kept) == (kept, False)
