"""`/livez`, `/readyz` and `/metrics`: for whoever watches the service from outside it."""

from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse
from pydantic import BaseModel, Field

from server.api.loopback import from_this_machine
from server.api.problem import documented
from server.record.troubles import DatabaseAway
from server.upkeep.measures import MEDIA_TYPE, Measures
from server.upkeep.parts import FAILING, Part, Watched, look_at_parts
from server.work.refusal import NotYours

router = APIRouter(tags=["watching"])


class Ready(BaseModel):
    """Whether the service is ready, and how each part is; sentences only for the owner and this machine itself."""

    ready: bool
    failing: list[str]
    parts: dict[str, str] = Field(description="`fine`, `look` (it works, somebody should look) or `failing`")
    sentences: dict[str, str]


@router.get("/livez")
async def alive() -> dict[str, bool]:
    """Say that the process answers; neither disk nor record is asked."""
    return {"alive": True}


@router.get("/readyz", response_model=Ready, responses={503: {"model": Ready, "description": "a part is failing"}})
def ready(request: Request) -> Response:
    """Look at each part, and name those that fail."""
    watched: Watched = request.app.state.watched
    told = _told(_looked_at(watched), in_full=_may_look_closer(request))
    return JSONResponse(told.model_dump(), 200 if told.ready else 503)


@router.get("/metrics", responses=documented(403), response_class=Response)
def metrics(request: Request) -> Response:
    """Give the measures, to this machine itself and to the owner."""
    if not _may_look_closer(request):
        raise NotYours("The measures are for the owner, and for a monitor on the server itself.")
    measures: Measures = request.app.state.measures
    return Response(measures.text(), media_type=MEDIA_TYPE)


def _looked_at(watched: Watched) -> list[Part]:
    try:
        return look_at_parts(watched)
    except DatabaseAway as away:
        return [Part("record", FAILING, str(away))]


def _told(parts: list[Part], *, in_full: bool) -> Ready:
    failing = [part.name for part in parts if part.state == FAILING]
    sentences = {part.name: part.sentence for part in parts} if in_full else {}
    return Ready(
        ready=not failing, failing=failing, parts={part.name: part.state for part in parts}, sentences=sentences
    )


def _may_look_closer(request: Request) -> bool:
    return from_this_machine(request) or bool(request.state.visitor.holds("owner"))
