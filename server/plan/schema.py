"""The JSON Schema of a design file, so that an editor completes it and marks slips while it is typed."""

from typing import Any

from server.plan.steps import HOURS
from server.plan.written import WrittenDesign

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def design_schema() -> dict[str, Any]:
    """The schema (draft 2020-12), with the four quarters by name."""
    schema = WrittenDesign.model_json_schema()
    schema["$defs"]["Cover"]["properties"]["quarter"]["enum"] = list(HOURS)
    return {"$schema": DRAFT, **schema}
