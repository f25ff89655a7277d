"""A service that typeset many dossiers holds no more than one that typeset a few."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
_GROWN = """
from pathlib import Path
from server.documents import typesetting
from server.documents.dossier import dossier_pdf
from tests.documents.sample_dossier import a_dossier

{control}

def held_mb():
    told = Path("/proc/self/status").read_text()
    return int(told.partition("VmRSS:")[2].split()[0]) / 1024

for further in range(2):
    dossier_pdf(a_dossier(30 + further))
few = held_mb()
for further in range(8):
    dossier_pdf(a_dossier(20 + further))
print(held_mb() - few)
"""


def grown_mb(control: str = "") -> float:
    """Give by how much the memory held grew over eight further dossiers, in a process of its own [MB]."""
    asked = [sys.executable, "-c", _GROWN.format(control=control)]
    return float(subprocess.run(asked, cwd=ROOT, check=True, capture_output=True, text=True).stdout)


def test_eight_further_dossiers_take_no_memory():
    """Eight dossiers, each with data of its own, leave behind less than one does that stays remembered."""
    remembered_mb = grown_mb(control="typesetting.forget = lambda: None")
    assert remembered_mb > 8, "the typesetter remembers nothing by itself, so nothing need be forgotten"
    assert grown_mb() < remembered_mb / 4
