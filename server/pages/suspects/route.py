"""The suspect sets' addresses: the list, one set, and the signature that narrows it."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Query, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.paged import part_of
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.pages.suspects.page import SHOWN, SetPage, SetsAsked, SetsPage
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.narrow import NarrowingAsked, narrow
from server.work.refusal import Refusal
from server.work.suspect_sets import one_suspect_set, suspect_sets_in_short

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]


@router.get("/suspect-sets", dependencies=[Depends(needs("quality lead", "owner"))])
def list_sets(
    request: Request,
    find: Annotated[str, Query(max_length=80)] = "",
    kind: Annotated[str, Query(max_length=20)] = "",
    holding: bool = False,
    part: int = 1,
) -> Response:
    """List the sets failed checks opened, the newest first: all, or those asked for."""
    asked = SetsAsked(find.strip(), kind, holding)
    with request.app.state.record.reads() as reads:
        every = suspect_sets_in_short(reads)
    still = len(SetsAsked(holding=True).of(every))
    shown = part_of(asked.of(every), part, SHOWN, asked.address())
    return show(request, "suspects/list.html", SetsPage(asked, shown, len(every), still))


@router.get("/suspect-sets/{check:path}", dependencies=[Depends(needs("quality lead", "owner"))])
def one_set(request: Request, check: str, done: str = "") -> Response:
    """Show one set: who is in, who is out, and by which fact."""
    with request.app.state.record.reads() as reads:
        page = _page(reads, check, (), {}, done)
    return show(request, "suspects/one.html", page)


@router.post("/suspect-sets/{check:path}")
def sign_narrowing(
    request: Request,
    check: str,
    visitor: Lead,
    secret: Annotated[str, Form(max_length=200)],
    fact: Annotated[str, Form(max_length=200)] = "",
    by: Annotated[str, Form(max_length=40)] = "",
    keeps: Annotated[list[str] | None, Form()] = None,
    undoes: Annotated[str, Form(max_length=80)] = "",
    reason: Annotated[str, Form(max_length=4000)] = "",
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Sign a narrowing, or undo one; an offer is chosen as `by|fact`."""
    record = request.app.state.record
    way, _, offered = fact.partition("|") if "|" in fact else (by, "", fact)
    try:
        meaning = f"suspect set narrowed by {way}" if not undoes else f"narrowing {undoes} undone"
        signings = proved_signings(request, visitor, meaning, secret, second, second_secret)
        asked = NarrowingAsked(check, way, offered, reason, signings, tuple(keeps or ()), undoes)
        with record.reads() as reads:
            found = one_suspect_set(reads, check)
        number = record.write(lambda reads: narrow(reads, asked, found, now_ms())).result()
    except Refusal as refusal:
        with record.reads() as reads:
            filled = {"reason": reason, "fact": fact, "second": second, "undoes": undoes}
            page = _page(reads, check, tuple(refusal.problems), filled, "")
        return show(request, "suspects/one.html", page, 422)
    return lead_on(request.url.path + f"?done={number}", number)


def _page(reads: Reads, check: str, problems: tuple[str, ...], filled: dict[str, str], done: str) -> SetPage:
    return SetPage(one_suspect_set(reads, check), signers(reads), problems, filled, done)
