"""The disk under a folder: how much room is left, and how long it takes to keep something for good."""

import os
import shutil
import tempfile
import time
from pathlib import Path
from statistics import median

SCARCE_BYTES = 1_000_000_000
TOO_LITTLE_BYTES = 50_000_000
# A flash cell or a platter takes longer (from memory, no source); only a disk with its own battery may be this quick.
TOO_QUICK_S = 0.0002
SLOW_S = 0.05
_PAGE = b"\xa5" * 4096


def free_bytes(folder: Path) -> int:
    """Give the room left on the disk under a folder."""
    return shutil.disk_usage(folder).free


def sync_seconds(folder: Path, times: int = 50) -> float:
    """Give the median time of keeping one page for good, as each commit does [s]."""
    with tempfile.NamedTemporaryFile(dir=folder, prefix=".sync-") as file:
        took = []
        for _ in range(times):
            file.write(_PAGE)
            file.flush()
            began = time.perf_counter()
            os.fdatasync(file.fileno())
            took.append(time.perf_counter() - began)
    return median(took)
