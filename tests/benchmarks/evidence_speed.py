"""How long sealing and rechecking take, as multiples of one bare SHA-256 over the same lines in the same run."""

import sys
from collections.abc import Callable
from hashlib import sha256
from time import perf_counter

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import chain_of, extended
from server.evidence.frontier import Frontier
from server.evidence.leaves import leaf_hash
from server.evidence.trees import Tree
from tests.evidence.sealed_record import SealedRecord

LINE_BYTES = 362
BARE = "bare SHA-256 of each line"
SEALED_EVERY = 500


def lines_of(count: int) -> list[bytes]:
    """Lines as long as an ordinary entry, no two alike."""
    return [(b'{"entry":%d,"note":"' % number).ljust(LINE_BYTES - 2, b"x") + b'"}' for number in range(count)]


def subjects_of(number: int) -> tuple[ChainSubject, ...]:
    """Four subjects for an entry: its frame, gas line, sleeve and welder, as often changing as in a small works."""
    return (
        ChainSubject("frame", str(number // 80)),
        ChainSubject("gas line", str(number % 3)),
        ChainSubject("sleeve", str(number // 200)),
        ChainSubject("welder", str(number % 4)),
    )


def hash_bare(lines: list[bytes]) -> None:
    """Hash each line once and nothing else: the yardstick."""
    for line in lines:
        sha256(line).digest()


def append_and_chain(lines: list[bytes], subjects: int) -> None:
    """Hash each line as a leaf, append it to the frontier and extend the chains of so many subjects."""
    frontier = Frontier()
    heads = [chain_of(subject) for subject in subjects_of(0)[:subjects]]
    for line in lines:
        leaf = leaf_hash(line)
        frontier.append(leaf)
        heads = [extended(head, leaf) for head in heads]
    frontier.root()


def sealed(lines: list[bytes]) -> SealedRecord:
    """Build a record of these lines, each with four subjects, with a seal behind every 500."""
    record = SealedRecord()
    for number, line in enumerate(lines, 1):
        record.add(line, *subjects_of(number))
        if number % SEALED_EVERY == 0:
            record.seal()
    return record


def seconds(work: Callable[[], object]) -> float:
    """Give the best of three runs [s]."""
    taken = []
    for _ in range(3):
        began = perf_counter()
        work()
        taken.append(perf_counter() - began)
    return min(taken)


def works_on(count: int) -> dict[str, Callable[[], object]]:
    """Give each kind of work on so many lines."""
    lines = lines_of(count)
    leaves, record = [leaf_hash(line) for line in lines], sealed(lines)
    return {
        BARE: lambda: hash_bare(lines),
        "leaf, frontier and one chain": lambda: append_and_chain(lines, 1),
        "leaf, frontier and four chains": lambda: append_and_chain(lines, 4),
        "whole tree for proofs from leaves": lambda: Tree(leaves),
        "recheck with four chains and seals": record.found,
    }


def measured(count: int) -> dict[str, tuple[float, float]]:
    """Give for each kind of work its seconds and its multiple of bare hashing."""
    taken = {name: seconds(work) for name, work in works_on(count).items()}
    bare = taken[BARE]
    return {name: (time, time / bare) for name, time in taken.items()}


if __name__ == "__main__":
    entries = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    for said, (time_s, multiple) in measured(entries).items():
        print(f"{said:36} {time_s:7.3f} s {multiple:6.1f} x")
