"""The procedure screens' addresses; anybody in the shop may read a procedure, signed in or not."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import HTMLResponse

from server.facts.procedure import Procedure
from server.pages.frame.rendering import show
from server.pages.procedures.page import ProcedureList, Released, Revision, comparison, procedure_sheet
from server.procedures.in_force import revision_in_force, revisions
from server.work.release_revision import change_tables, released_text

router = APIRouter(include_in_schema=False)


def _known(request: Request) -> tuple[list[Procedure], date]:
    with request.app.state.record.reads() as reads:
        procedures = list(reads.registers().procedures.values())
    return procedures, datetime.now(UTC).astimezone(ZoneInfo(request.app.state.shop.zone)).date()


def _one(procedures: list[Procedure], name: str, revision: str) -> Procedure:
    for each in procedures:
        if (each.name, each.revision) == (name, revision):
            return each
    raise HTTPException(404, f"There is no procedure {name!r} at revision {revision!r}; the list shows what there is.")


@router.get("/procedures")
def list_procedures(request: Request) -> HTMLResponse:
    """List every procedure with its revisions."""
    procedures, today = _known(request)
    groups = []
    for name in sorted({each.name for each in procedures}):
        now = revision_in_force(procedures, name, today)
        newest_first = reversed(revisions(procedures, name))
        groups.append((name, tuple(Revision(each, each is now) for each in newest_first)))
    return show(request, "procedures/list.html", ProcedureList(tuple(groups), today))


@router.get("/procedures/{name}/{revision}")
def read_one(request: Request, name: str, revision: str) -> HTMLResponse:
    """Show one revision in the order of the work."""
    procedures, today = _known(request)
    it = _one(procedures, name, revision)
    released = _released(request, it) if request.state.visitor.signed_in else None
    others = [each for each in revisions(procedures, name) if each is not it]
    page = procedure_sheet(it, revision_in_force(procedures, name, today) is it, others, released)
    return show(request, "procedures/one.html", page)


def _released(request: Request, it: Procedure) -> Released | None:
    with request.app.state.record.reads() as reads:
        signed, people = released_text(reads, it).signature, reads.registers().people
    if signed is None:
        return None
    known = people.get(signed.person)
    return Released(known.name if known else signed.person, signed.role, signed.at)


@router.get("/procedures/{name}/{old}/against/{new}")
def compare_two(request: Request, name: str, old: str, new: str) -> HTMLResponse:
    """Show what changed between two revisions, in the order of the work."""
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    procedures = list(registers.procedures.values())
    page = comparison(_one(procedures, name, old), _one(procedures, name, new), change_tables(registers))
    return show(request, "procedures/against.html", page)
