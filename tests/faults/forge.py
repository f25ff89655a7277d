"""A process that has everything imported already and forks a service whenever it is told to, so that starting is quick.

Each order is a line of JSON: the port, the data folder, the names of loosenings, and what strace is to be asked for, if
the service runs under it. The answer is the service's process id. What is forked is the service as `strawline serve`
runs it, in a process of its own; strace comes to it only then, since nothing of the importing is to be watched.
"""

import json
import os
import signal
import sys
import time
from pathlib import Path
from typing import Any


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
        told = json.loads(order)
        child = os.fork()
        if child == 0:
            (_serve_watched if told["strace"] else _serve)(told)
        if not told["strace"]:
            print(child, flush=True)


def _serve_watched(order: dict[str, Any]) -> None:
    """Fork the service once more and become its strace: a machine may let nobody but a parent watch a process."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    parent = os.getpid()
    child = os.fork()
    if child == 0:
        while "TracerPid:\t0\n" in Path("/proc/self/status").read_text():
            if os.getppid() != parent:
                os._exit(1)
            time.sleep(0.002)
        _serve(order)
    print(child, flush=True)
    data = Path(order["data"])
    command = ["strace", "-f", "-qq", "-y", "-o", str(data.with_name(f"{data.name}.trace")), *order["strace"]]
    os.execvp(command[0], [*command, "-p", str(child)])


def _serve(order: dict[str, Any]) -> None:
    from server.commands.serve import run
    from tests.faults.loosening import loosening

    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    data = Path(order["data"])
    for name in order["loosened"]:
        loosening(name)(data)
    os.environ["STRAWLINE_PORT"] = str(order["port"])
    with (data / "service.log").open("a") as log:
        os.dup2(log.fileno(), 1)
        os.dup2(log.fileno(), 2)
        os._exit(run(["--data", str(data), "--quiet"]))


if __name__ == "__main__":
    main()
