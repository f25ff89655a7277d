"""A process that has everything imported already and forks a service whenever it is told to, so that starting is quick.

Each order is a line: the port, the data folder, and the names of loosenings. The answer is the service's process id.
What is forked is the service as `strawline serve` runs it, in a process of its own.
"""

import os
import signal
import sys
from pathlib import Path


def main() -> None:
    """Take orders until there are none left."""
    import httptools  # noqa: F401
    import uvloop  # noqa: F401

    import server.app
    import server.commands.serve  # noqa: F401

    # Nobody waits for a service that was killed, and none is to stay behind as a dead entry.
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    print("ready", flush=True)
    for order in sys.stdin:
        child = os.fork()
        if child == 0:
            _serve(*order.split())
        print(child, flush=True)


def _serve(port: str, data: str, *names: str) -> None:
    from server.commands.serve import run
    from tests.faults.loosening import loosening

    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    for name in names:
        loosening(name)(Path(data))
    os.environ["STRAWLINE_PORT"] = port
    with (Path(data) / "service.log").open("a") as log:
        os.dup2(log.fileno(), 1)
        os.dup2(log.fileno(), 2)
        os._exit(run(["--data", data, "--quiet"]))


if __name__ == "__main__":
    main()
