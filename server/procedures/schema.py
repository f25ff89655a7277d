"""The JSON Schema of a procedure file, so that an editor completes it and marks slips while it is typed."""

from typing import Any

from server.facts.limit_kinds import LIMIT_KINDS
from server.procedures.units import usual_units
from server.procedures.written import WrittenProcedure

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """The schema (draft 2020-12), with every limit by its name and every unit it may be written in."""
    schema = WrittenProcedure.model_json_schema()
    schema["properties"]["limits"] |= {
        "properties": {name: _limit(name) for name in LIMIT_KINDS},
        "additionalProperties": False,
    }
    ranges = schema["$defs"]["WrittenSupport"]["properties"]["ranges"]
    ranges["propertyNames"] = {"enum": list(LIMIT_KINDS)}
    return {"$schema": DRAFT, **schema}


def _limit(name: str) -> dict[str, Any]:
    kind = LIMIT_KINDS[name]
    one = {
        "allOf": [{"$ref": "#/$defs/WrittenLimit"}, {"properties": {"unit": {"enum": list(usual_units(kind.unit))}}}]
    }
    return {
        "description": f"{kind.words}{f' [{kind.unit}]' if kind.unit else ''}, {kind.moment}",
        "anyOf": [one, {"type": "array", "items": one, "minItems": 1}],
    }
