"""The server starts without the libraries that only a calculator, a chart or a trace needs."""

import subprocess
import sys

import pytest

HEAVY = ("numpy", "scipy", "scipy.stats", "pint", "PIL", "vl_convert", "typst")


def loaded_after(program: str) -> set[str]:
    """The heavy libraries that a program has loaded when it ends."""
    told = f"import sys\n{program}\nprint(' '.join(name for name in {HEAVY!r} if name in sys.modules))"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize("module", ["server.app", "server.commands.serve", "server.commands.load"])
def test_the_server_is_imported_without_them(module: str) -> None:
    """Importing the application and its commands loads neither numpy nor scipy, nor any other heavy library."""
    assert loaded_after(f"import {module}") == set()


def test_one_that_is_loaded_is_reported() -> None:
    """Control: a program that imports numpy, or works a calculator out, is reported."""
    assert "numpy" in loaded_after("import numpy")
    asking = "from server.pages.calculators.heat_input import heat_input_page\nheat_input_page({})"
    assert "pint" in loaded_after(asking)
