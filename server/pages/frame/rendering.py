"""Fills a screen's template with its page and nothing else; a name the page lacks is an error, not a blank."""

from functools import lru_cache
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from server.pages.frame import wording
from server.pages.frame.assets import PAGES, asset
from server.pages.frame.entry_words import entry_values, entry_words
from server.pages.frame.kept_rows import kept
from server.pages.frame.leading_on import came_twice
from server.pages.frame.limit_bar import limit_bar
from server.pages.frame.rooms import room_of
from server.pages.frame.shop_sign import ShopSign
from server.pages.frame.shop_words import asks, history_of, shop_words, shown_value
from server.pages.frame.visitor import Visitor


@lru_cache(maxsize=1)
def sheets() -> Environment:
    """Make the one template environment of the house."""
    made = Environment(
        loader=FileSystemLoader(PAGES), undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True
    )
    made.globals.update(asset=asset, kept=kept, limit_bar=limit_bar, shapes=wording.SHAPES, word_marks=_word_marks())
    made.filters.update(
        local_moment=wording.local_moment,
        local_clock=wording.local_clock,
        quantity=wording.quantity,
        shop_words=shop_words,
        asks=asks,
        history_of=history_of,
        shown_value=shown_value,
        entry_words=entry_words,
        entry_values=entry_values,
    )
    made.globals["allowed_range"] = wording.allowed_range
    return made


def _word_marks() -> dict[str, Markup]:
    """Each verdict's word with its shape: a history shows some two thousand of them."""
    mark = Markup('<span class="word word-{}"><span class="shape" aria-hidden="true">{}</span> {}</span>')
    return {word: mark.format(word.replace(" ", "-"), shape, word) for word, shape in wording.SHAPES.items()}


def written(
    template: str, page: Any, visitor: Visitor, sign: ShopSign, path: str, *, twice: bool = False, refused: bool = False
) -> str:
    """Fill `template` (`bench/bench.html`) from `page`, as this visitor sees it at that path of this shop."""
    shop = sign.sheet()
    seen = {"visitor": visitor, "shop": shop, "zone": shop.zone, "who": sign.who(), "here": room_of(path)}
    return sheets().get_template(template).render(page=page, **seen, twice=twice, refused=refused)


def show(request: Request, template: str, page: Any, status: int = 200) -> HTMLResponse:
    """Answer with `template` filled from `page`, seen by the visitor of this request."""
    visitor: Visitor = getattr(request.state, "visitor", Visitor())
    sign, path, refused = request.app.state.shop, request.url.path, status >= 400
    text = written(template, page, visitor, sign, path, twice=not refused and came_twice(request), refused=refused)
    return HTMLResponse(text, status_code=status)
