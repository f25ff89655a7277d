"""Every public formula is explained in the house's order, and its example runs."""

import doctest
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from types import ModuleType

import pytest

import server.physics

ORDER = ("Equation:", "Inputs:", "Result:", "Example:", "Range and traps:", "Source:")
# What these files hold is the inside of a formula, a check or a name: one sentence says all.
INSIDE = {
    *("arrays", "band", "cooling_metal", "errors", "inputs", "unit_words"),
    *("purge_balance", "purge_cells", "purge_course", "purge_network", "purge_reach", "purge_step"),
    *("trace_beads", "trace_found", "trace_piece", "trace_state", "trace_steps", "trace_stretch", "trace_table"),
}
MODULES = [
    importlib.import_module(f"server.physics.{found.name}") for found in pkgutil.iter_modules(server.physics.__path__)
]


def public_functions(module: ModuleType) -> Iterator[Callable[..., object]]:
    for name, thing in inspect.getmembers(module, inspect.isroutine):
        if not name.startswith("_") and getattr(thing, "__module__", "") == module.__name__:
            yield thing


def missing(explanation: str) -> list[str]:
    """The headings that are not there, or not in their place."""
    lines = [line.strip() for line in explanation.splitlines()]
    places = [next((place for place, line in enumerate(lines) if line.startswith(word)), -1) for word in ORDER]
    return [word for word, place, before in zip(ORDER, places, [0, *places], strict=False) if place <= before]


FORMULAS = [
    function
    for module in MODULES
    if module.__name__.rpartition(".")[2] not in INSIDE
    for function in public_functions(module)
]


def test_there_are_formulas() -> None:
    """The search finds the room's formulas, among them those of each subject."""
    names = {function.__name__ for function in FORMULAS}
    assert len(names) >= 42
    assert names >= {"arc_energy_j_per_mm", "trace_energy", "forecast_purge", "hold_time_s", "water_ppmv"}


@pytest.mark.parametrize("function", FORMULAS, ids=lambda function: function.__name__)
def test_explained_in_order(function: Callable[..., object]) -> None:
    """A formula's page has sentence, equation, inputs, result, example, range and traps, and source, in that order."""
    explanation = inspect.getdoc(function) or ""
    assert explanation.partition("\n")[0].endswith(".")
    assert missing(explanation) == []
    assert ">>> " in explanation
    assert "[" in explanation.partition("Inputs:")[2].partition("Range and traps:")[0]


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__.rpartition(".")[2])
def test_examples_run(module: ModuleType) -> None:
    """Every example gives what it says it gives."""
    assert doctest.testmod(module).failed == 0


def test_a_page_out_of_order_is_reported() -> None:
    """Control: a missing heading and one out of its place are both named."""
    whole = "Say.\n\n" + "\n".join(f"{word} x" for word in ORDER)
    assert missing(whole) == []
    assert missing(whole.replace("Result:", "Gives:")) == ["Result:"]
    assert "Inputs:" in missing("Say.\n\n" + "\n".join(f"{word} x" for word in (ORDER[1], ORDER[0], *ORDER[2:])))
