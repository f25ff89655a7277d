"""Keeps how a row of a list is written for as long as it tells the same, since lists are asked for again and again."""

from collections.abc import Hashable
from functools import lru_cache

from jinja2.runtime import Macro

_MOST = 8192


@lru_cache(maxsize=_MOST, typed=True)
def kept(row: Macro, *told: Hashable) -> str:
    """Give what a macro makes of what a row tells, which never changes; the macro stands in a file of its own.

    A macro that is imported knows nothing of the page, the visitor or the shop but what it is given. What the shop
    may have to forget, as names of customers, is not given: rows are kept until others take their place.
    """
    made: str = row(*told)
    return made
