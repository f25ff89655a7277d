"""The cause table's address: every cause put to one joint of one frame."""

from dataclasses import replace

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.pages.causes.page import CausesPage
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.work.decided_before import decided_before
from server.work.joint_causes import joint_causes
from server.work.legal_hold import standing_hold
from server.work.who_has_it import back_in_house

router = APIRouter(include_in_schema=False)


@router.get("/history/{serial}/{joint}/causes", dependencies=[Depends(needs("owner", "quality lead", "office"))])
def causes(request: Request, serial: str, joint: str, part: int = 1) -> Response:
    """Show what the record supports, excludes and is silent about."""
    with request.app.state.record.reads() as reads:
        found = joint_causes(reads, serial, joint)
        supported = [each.cause for each in found.words if each.says == "supports"]
        before = decided_before(reads, supported)
        registers = reads.registers()
        page = CausesPage(found, tuple(before), standing_hold(registers, serial), part)
        home = back_in_house(reads, registers, {each.frame for each in page.sharing.rows})
    return show(request, "causes/causes.html", replace(page, home=frozenset(home)))
