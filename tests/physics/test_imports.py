"""What the room brings along when it is imported and when it is used."""

import subprocess
import sys

READ_ALL = """
import importlib, pkgutil, sys
import server.physics
modules = [importlib.import_module(f"server.physics.{found.name}")
           for found in pkgutil.iter_modules(server.physics.__path__)]
"""
HEAVY = """
heavy = ("numpy", "scipy", "scipy.stats", "scipy.linalg", "scipy.special", "pint")
print([name for name in heavy if name in sys.modules])
"""
USE_ALL = """
import doctest
tried = sum(doctest.testmod(module).attempted for module in modules)
"""


def said(program: str) -> str:
    return subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True).stdout.strip()


def test_importing_is_light() -> None:
    """Importing every file of the room imports neither numpy nor scipy nor the units library."""
    assert said(READ_ALL + HEAVY) == "[]"


def test_using_all_never_needs_scipy_stats() -> None:
    """Running every example uses numpy and the units library, which looks for scipy; nothing loads scipy's parts."""
    assert said(READ_ALL + USE_ALL + HEAVY) == "['numpy', 'scipy', 'pint']"
    assert int(said(READ_ALL + USE_ALL + "print(tried)")) >= 45


def test_simple_formulas_need_nothing() -> None:
    """Heat input, one purged volume and a gas check, as the rules use them, need the standard library alone."""
    used = """
import sys
from server.physics.arc_energy import arc_energy_j_per_mm
from server.physics.gas_certificate import reading_possible
from server.physics.heat_input import heat_input_j_per_mm
from server.physics.purge_single import OneVolume, purge_oxygen_ppm
heat_input_j_per_mm(arc_energy_j_per_mm(10.0, 50.0, 120.0))
reading_possible(0.0, 1.0, 2.0)
purge_oxygen_ppm(OneVolume(1.0, 10.0), 60.0)
"""
    assert said(used + HEAVY) == "[]"
