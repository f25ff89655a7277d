"""What the application says of itself: every answer it can give is documented."""

from typing import Any

import pytest

from server.record.book_of_lines import Record
from tests.api.asking import Asker


@pytest.fixture
def documented(asker: Asker) -> dict[str, Any]:
    """The application's own description."""
    answer = asker.ask("GET", "/api/openapi.json")
    assert answer.status_code == 200
    found: dict[str, Any] = answer.json()
    return found


@pytest.mark.parametrize(
    ("path", "method", "statuses"),
    [
        ("/api/deliveries", "post", {"200", "400", "409", "413", "422", "503", "507"}),
        ("/api/lines/{name}", "get", {"200", "404"}),
        ("/api/checkpoints/latest", "get", {"200", "404"}),
    ],
)
def test_every_answer_is_documented(documented: dict[str, Any], path: str, method: str, statuses: set[str]):
    """Each address names every status it answers with, each error as a problem."""
    responses = documented["paths"][path][method]["responses"]
    assert statuses <= set(responses)
    for status in statuses - {"200"}:
        content = responses[status]["content"]
        assert content == {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}}


def test_what_documents_point_at_is_there(documented: dict[str, Any]):
    """Every form that the description refers to is in it."""

    def references(part: Any) -> set[str]:
        if isinstance(part, dict):
            own = {part["$ref"]} if isinstance(part.get("$ref"), str) else set()
            return own.union(*map(references, part.values()))
        return set().union(*map(references, part)) if isinstance(part, list) else set()

    there = {f"#/components/schemas/{name}" for name in documented["components"]["schemas"]}
    found = references(documented)
    assert "#/components/schemas/Problem" in found
    assert found <= there


def test_the_body_of_a_delivery_is_documented(documented: dict[str, Any]):
    """What a device sends is described, and that its id is what is insisted on."""
    forms = documented["components"]["schemas"]
    body = documented["paths"]["/api/deliveries"]["post"]["requestBody"]["content"]["application/json"]["schema"]
    batch = forms[body["$ref"].rsplit("/", 1)[-1]]
    sent = forms[batch["properties"]["deliveries"]["items"]["$ref"].rsplit("/", 1)[-1]]
    assert sent["required"] == ["id"]
    assert set(sent["properties"]) == {"id", "device", "sent_at", "line"}


def test_no_outside_pages_are_served(asker: Asker, record: Record):
    """The framework's own documentation pages, which load scripts from elsewhere, are not there."""
    assert [asker.ask("GET", path).status_code for path in ("/docs", "/redoc")] == [404, 404]
