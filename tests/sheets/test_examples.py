"""The examples in the docstrings of the rooms that read sheets, procedures and designs."""

import doctest
import pkgutil
from importlib import import_module

import pytest

import server.plan
import server.procedures
import server.sheets

ROOMS = (server.sheets, server.procedures, server.plan)
MODULES = [f"{room.__name__}.{found.name}" for room in ROOMS for found in pkgutil.iter_modules(room.__path__)]
SHOWING = {"places", "units", "volumes", "card_lines", "steps"}


@pytest.mark.parametrize("name", MODULES)
def test_an_example_says_what_the_function_gives(name: str) -> None:
    """Every example runs and gives what stands below it; those that should show one do."""
    result = doctest.testmod(import_module(name))
    assert result.failed == 0
    assert result.attempted > 0 or name.rsplit(".", 1)[1] not in SHOWING
