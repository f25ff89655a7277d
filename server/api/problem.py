"""The one form every error has for a program: RFC 9457 problem details, in words a person can act on."""

from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from fastapi.responses import JSONResponse
from pydantic import BaseModel, ConfigDict, Field

MEDIA_TYPE = "application/problem+json"


class Problem(BaseModel):
    """What went wrong (RFC 9457); `errors` names field, found and expected where one field is at fault."""

    model_config = ConfigDict(extra="allow")

    type: str = "about:blank"
    title: str
    status: int
    detail: str
    errors: list[dict[str, Any]] = Field(default_factory=list)


def problem_response(
    status: int, detail: str, *, headers: Mapping[str, str] | None = None, **further: Any
) -> JSONResponse:
    """Answer with a problem; the title is the status in plain words, the detail says what to do."""
    told = Problem(title=HTTPStatus(status).phrase, status=status, detail=detail, **further)
    return JSONResponse(told.model_dump(mode="json"), status, headers, media_type=MEDIA_TYPE)


def documented(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """Give the documentation of problem answers with these statuses."""
    content = {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/Problem"}}}
    return {status: {"description": HTTPStatus(status).phrase, "content": content} for status in statuses}
