"""What the room brings along when it is imported and when it is used."""

import subprocess
import sys

READ_ALL = """
import importlib, pkgutil, sys
import server.statistics
modules = [importlib.import_module(f"server.statistics.{found.name}")
           for found in pkgutil.iter_modules(server.statistics.__path__)]
"""
HEAVY = "print(sorted(name for name in ('numpy', 'scipy', 'scipy.stats', 'scipy.special') if name in sys.modules))"
USE_ALL = """
import doctest
tried = sum(doctest.testmod(module).attempted for module in modules)
"""


def said(program: str) -> str:
    return subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True).stdout.strip()


def test_importing_is_light() -> None:
    """Importing every file of the room imports neither numpy nor scipy."""
    assert said(READ_ALL + HEAVY) == "[]"


def test_using_all_never_needs_scipy_stats() -> None:
    """Running every example of the room uses numpy and scipy.special but not scipy.stats."""
    assert said(READ_ALL + USE_ALL + HEAVY) == "['numpy', 'scipy', 'scipy.special']"
    assert int(said(READ_ALL + USE_ALL + "print(tried)")) >= 30


def test_judging_one_reading_needs_nothing() -> None:
    """Judging a single reading, as the rules do, imports neither numpy nor scipy."""
    judge = "import sys\nfrom server.statistics.conformity import conform\nconform(1.0, None, 2.0, 0.1)\n"
    assert said(judge + HEAVY) == "[]"
