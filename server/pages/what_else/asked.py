"""What somebody asks the shared-cause page by: some things, two days, a failed check to cut at."""

from datetime import date, timedelta
from typing import Annotated, NamedTuple

from fastapi import Depends, Query, Request

from server.occasions.days import Days
from server.pages.what_else.page import ROWS
from server.record.reads import Reads
from server.work.refusal import Unreadable
from server.work.what_else import WhatElse, Within, what_else
from server.work.what_things import KINDS, Kind, Thing


class Asked(NamedTuple):
    """What was asked: the things, two days, and a failed check to cut at."""

    things: tuple[Thing, ...]
    since: str
    until: str
    check: str


def asked_by(
    kind: Annotated[list[str] | None, Query(max_length=ROWS)] = None,
    thing: Annotated[list[str] | None, Query(alias="id", max_length=ROWS)] = None,
    since: Annotated[str, Query(max_length=10)] = "",
    until: Annotated[str, Query(max_length=10)] = "",
    check: Annotated[str, Query(max_length=160)] = "",
) -> Asked:
    """Read the question; a row without a name asks nothing."""
    kinds, names = kind or ["cylinder"], [each.strip() for each in thing or []]
    kinds += ["cylinder"] * (len(names) - len(kinds))
    pairs = zip(kinds, names, strict=False)
    return Asked(tuple(dict.fromkeys(Thing(kind_called(k), n) for k, n in pairs if n)), since, until, check)


Question = Annotated[Asked, Depends(asked_by)]


def found_by(request: Request, asked: Asked) -> WhatElse:
    """Give the answer; raises `Unreadable` for what cannot be asked."""
    with request.app.state.record.reads() as reads:
        return answered(reads, request.app.state.shop.sheet().zone, asked)


def answered(reads: Reads, zone: str, asked: Asked) -> WhatElse:
    """Answer out of what was read, days taken in the shop's zone."""
    if not asked.things:
        raise Unreadable("id: empty; write which one, as it stands on its tag")
    days = Days(zone)
    first, after = _day("since", asked.since), _day("until", asked.until)
    if first and after and after < first:
        raise Unreadable(f"until: {asked.until!r} lies before since, {asked.since!r}; put the earlier day first")
    since_ms = days.start_ms(first.toordinal()) if first else None
    until_ms = days.start_ms((after + timedelta(days=1)).toordinal()) if after else None
    return what_else(reads, asked.things, Within(since_ms, until_ms, asked.check))


def kind_called(said: str) -> Kind:
    """Give the kind of that name; raises `Unreadable` for any other."""
    known: Kind | None = next((each for each in KINDS if each == said), None)
    if known is None:
        raise Unreadable(f"kind: {said!r} is nothing to ask by; ask by {', '.join(KINDS)}")
    return known


def _day(name: str, written: str) -> date | None:
    try:
        return date.fromisoformat(written) if written else None
    except ValueError:
        raise Unreadable(f"{name}: {written!r} is not a day; write it as 2030-04-02, or leave it empty") from None
