"""The addresses on which a next revision is written, held against joints already made, and released, signed."""

from datetime import UTC, date, datetime
from typing import Annotated
from urllib.parse import quote
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.facts.procedure import Procedure
from server.judgement.book import RULES
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings
from server.pages.frame.visitor import Visitor
from server.pages.procedures.page import NextRevision, comparison
from server.procedures.in_force import revisions
from server.procedures.next_revision import begun_from
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.in_turn import costly
from server.work.refusal import NotThere, Refusal
from server.work.release_revision import RevisionAsked, change_tables, read_next, release_revision, released_text
from server.work.would_have_caught import would_have_caught

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
MOST_LETTERS = 100_000
Text = Annotated[str, Form(max_length=MOST_LETTERS)]
Newest = Annotated[int, Form(ge=0, le=1000)]
_USUAL, _ASKS = 30, {each.id: each.asks for each in RULES}


@router.get("/procedures/{name}/{revision}/next", dependencies=[Depends(needs("quality lead", "owner"))])
def begin(request: Request, name: str, revision: str) -> Response:
    """Show the text of a revision as the beginning of the next one."""
    with request.app.state.record.reads() as reads:
        old = _old(reads, name, revision)
        known = reads.registers().procedures.values()
        text = begun_from(released_text(reads, old).text, old, known, _today(request))
        page = NextRevision(old, text, _USUAL, later=_later(reads, old))
    return show(request, "procedures/next.html", page)


@router.post("/procedures/{name}/{revision}/next", dependencies=[Depends(costly)])
def look_or_release(
    request: Request,
    visitor: Lead,
    name: str,
    revision: str,
    text: Text,
    newest: Newest = _USUAL,
    release: Annotated[bool, Form()] = False,
    secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Say what is wrong, what differs and what it would have caught; or release it, signed."""
    plain = text.replace("\r\n", "\n")
    refused: tuple[str, ...] = ()
    if release:
        try:
            letter = _release(request, visitor, name, revision, plain, secret)
            return lead_on(f"/procedures/{quote(name, safe='')}/{quote(letter, safe='')}", letter)
        except Refusal as refusal:
            refused = tuple(refusal.problems)
    with request.app.state.record.reads() as reads:
        page = _looked_at(reads, _old(reads, name, revision), plain, newest, _today(request), refused)
    return show(request, "procedures/next.html", page, 422 if page.problems or refused else 200)


@router.get("/procedures/{name}/{revision}/file", dependencies=[Depends(needs())])
def text_of(request: Request, name: str, revision: str) -> Response:
    """Give the text of a revision as a file, as it was released."""
    with request.app.state.record.reads() as reads:
        told = released_text(reads, _old(reads, name, revision))
    called = quote(told.file.rpartition("/")[2], safe="")
    headers = {"Content-Disposition": f"attachment; filename*=UTF-8''{called}"}
    return Response(told.text.encode(), media_type="application/toml", headers=headers)


def _release(request: Request, visitor: Visitor, name: str, revision: str, text: str, secret: str) -> str:
    signing = proved_signings(request, visitor, "procedure released", secret, "", "")[0]
    asked = RevisionAsked(name, revision, text, signing)
    letter: str = request.app.state.record.write(lambda reads: release_revision(reads, asked, now_ms())).result()
    return letter


def _looked_at(
    reads: Reads, old: Procedure, text: str, newest: int, today: date, refused: tuple[str, ...]
) -> NextRevision:
    try:
        new = read_next(reads, old.name, old.revision, text, today)
    except Refusal as refusal:
        return NextRevision(old, text, newest, tuple(refusal.problems), refused=refused, later=_later(reads, old))
    caught = would_have_caught(reads, new, newest) if newest else None
    compared = comparison(old, new, change_tables(reads.registers()))
    return NextRevision(old, text, newest, (), new, compared, caught, _ASKS, refused, _later(reads, old))


def _later(reads: Reads, old: Procedure) -> tuple[Procedure, ...]:
    known = revisions(reads.registers().procedures.values(), old.name)
    return tuple(known[known.index(old) + 1 :])


def _old(reads: Reads, name: str, revision: str) -> Procedure:
    found = reads.registers().procedures.get((name, revision))
    if found is None:
        raise NotThere(f"There is no procedure {name!r} at revision {revision!r}; the list shows what there is.")
    return found


def _today(request: Request) -> date:
    return datetime.now(UTC).astimezone(ZoneInfo(request.app.state.shop.zone)).date()
