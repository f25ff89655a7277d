"""Makes the web application around an open record: the addresses for programs, limits, and a word for every error."""

from collections.abc import Iterable, Mapping
from typing import Any

from fastapi import APIRouter, FastAPI
from fastapi.telemetry import TelemetryConfig
from pydantic import BaseModel
from pydantic.json_schema import JsonSchemaMode, models_json_schema

from server.api import deliveries, lines
from server.api.body_limit import MOST_BYTES, BodyLimit
from server.api.errors import Page, answer_errors
from server.api.problem import Problem, documented
from server.record.book_of_lines import Record

# Nothing about the shop's work is to leave it, so every hook that could report elsewhere is off.
_SILENT: TelemetryConfig = {
    "tracing": False,
    "metrics": False,
    "logs": False,
    "operation_spans": False,
    "auto_configure": False,
}


def make_app(
    record: Record,
    *,
    routers: Iterable[APIRouter] = (),
    page: Page | None = None,
    most_bytes: int = MOST_BYTES,
    larger: Mapping[str, int] | None = None,
    **further: Any,
) -> FastAPI:
    """Make the application; `routers` are the screens', `page` tells an error to a person, `larger` lifts limits.

    What is further named goes to FastAPI itself, such as `lifespan`.
    """
    app = FastAPI(
        title="Strawline",
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        telemetry=_SILENT,
        responses=documented(400, 404, 405, 413, 422, 500),
        **further,
    )
    app.state.record = record
    app.add_middleware(BodyLimit, most_bytes=most_bytes, larger=larger, page=page)
    answer_errors(app, page)
    for router in (deliveries.router, lines.router, *routers):
        app.include_router(router)
    _document(app)
    return app


def _document(app: FastAPI) -> None:
    """Add the forms that are pointed at but that the framework does not come across by itself."""
    without = app.openapi
    both: list[tuple[type[BaseModel], JsonSchemaMode]] = [(Problem, "serialization"), (deliveries.Batch, "validation")]
    _, forms = models_json_schema(both, ref_template="#/components/schemas/{model}")

    def openapi() -> dict[str, Any]:
        schema = without()
        schema.setdefault("components", {}).setdefault("schemas", {}).update(forms["$defs"])
        return schema

    app.openapi = openapi  # type: ignore[method-assign]
