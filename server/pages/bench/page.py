"""What the bench's page gets: which build, which bench, which device; everything else the tablet asks for itself."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.equipment import Bench

_NO_BENCH = "none"


@dataclass(frozen=True, slots=True)
class BenchPage:
    """The shell of the bench; nothing in it is about a person, so a tablet may keep it."""

    build: str
    bench: str
    device: str


def bench_of(device: str, benches: Mapping[str, Bench], asked: str | None = None) -> str:
    """Give the bench a device belongs to, the one asked for, or the first there is."""
    if asked in benches:
        return str(asked)
    own = (each.id for each in benches.values() if device in each.devices)
    return next(own, min(benches, default=_NO_BENCH))
