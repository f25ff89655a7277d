"""The schema an editor completes procedure files by."""

import tomllib
from datetime import date
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from server.facts.limit_kinds import LIMIT_KINDS
from server.procedures.schema import json_schema
from tests.procedures.ladder import LADDER, changed

SCHEMA = json_schema()


def slips(text: str) -> list[str]:
    return [error.json_path for error in Draft202012Validator(SCHEMA).iter_errors(plain(tomllib.loads(text)))]


def plain(value: Any) -> Any:
    """TOML's days as the text an editor's checker sees."""
    if isinstance(value, dict):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value


def test_it_is_a_schema_of_the_draft_it_names() -> None:
    """An editor can rely on it being draft 2020-12."""
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMA)


def test_a_good_file_has_no_slips() -> None:
    """What the reader takes, the schema takes."""
    assert slips(LADDER) == []


@pytest.mark.parametrize(
    "changes",
    [
        {"oxygen = { high = 0.003": "oxigen = { high = 0.003"},
        {'"CFH"': '"psi"'},
        {'when = "every fill"': 'when = "every full"'},
        {'revision = "1"\n': ""},
        {"allowed = [1.1]": "allowed = 1.1"},
    ],
)
def test_slips_are_marked_while_typing(changes: dict[str, str]) -> None:
    """A wrong limit, unit, plan, a missing field and a wrong shape are marked."""
    assert slips(changed(changes))


def test_every_limit_is_offered_with_its_words_and_units() -> None:
    """An editor lists each limit, says what it is and which units may be written."""
    offered = SCHEMA["properties"]["limits"]["properties"]
    assert list(offered) == list(LIMIT_KINDS)
    assert offered["oxygen"]["description"] == "purge oxygen at arc start [ppm], before the arc"
    assert "CFH" in str(offered["torch_flow"])
    assert "CFH" not in str(offered["oxygen"])
