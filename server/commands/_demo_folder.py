"""Has the invented shop's folder written by a process of its own, so that this one can get ready meanwhile."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WRITTEN = "written\n"
Tell = Callable[[int, int], None]


class NotWritten(Exception):
    """The folder could not be written; what went wrong was said by the process that wrote it."""


class Writing:
    """A folder that is being written: first what is loaded, then the pictures."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self._process = process

    def until_told(self, tell: Tell) -> None:
        """Wait until everything but the pictures stands there, telling how far it is."""
        for line in self._process.stdout or ():
            if line == WRITTEN:
                return
            done, of = line.split()
            tell(int(done), int(of))
        self.until_drawn()

    def until_drawn(self) -> None:
        """Wait until the pictures stand there too; raises `NotWritten`."""
        if code := self._process.wait():
            raise NotWritten(f"the demo's shop could not be written (exit code {code}); the reason stands above")


@contextmanager
def written_beside(shop: Path, which: str) -> Iterator[Writing]:
    """Write the folder while the block runs, and stop writing where the block ends early."""
    asked = ("-m", "demo_data.generator", str(shop), "--shop", which, "--pictures", "--progress")
    with subprocess.Popen([sys.executable, *asked], cwd=ROOT, stdout=subprocess.PIPE, text=True) as process:
        try:
            yield Writing(process)
        finally:
            process.kill()
