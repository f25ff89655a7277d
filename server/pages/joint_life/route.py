"""The address of the joint lives, of all designs or of one joint."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.joint_life.page import JointLifePage
from server.work.joint_life import joint_life

router = APIRouter(include_in_schema=False)
Name = Annotated[str, Query(max_length=80)]


@router.get("/joint-life", dependencies=[Depends(needs("owner", "quality lead", "office"))])
def lives(request: Request, design: Name = "", joint: Name = "", every: bool = False) -> Response:
    """Show how long joints hold in the field, as far as claims tell."""
    with request.app.state.record.reads() as reads:
        found = joint_life(reads, design.strip(), joint.strip())
    return show(request, "joint_life/joint_life.html", JointLifePage(found, every))
