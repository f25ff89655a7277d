"""What a disk may hold after the power was cut: all that was synced, and of the rest any part, whole or torn."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from tests.faults.syscalls import Acknowledged, Event, Named, Synced, Truncated, Wrote

SECTOR = 512


class Image(NamedTuple):
    """The files on the disk after a cut, and the receipts that had been given by then."""

    files: dict[str, bytes]
    receipts: dict[str, dict[str, Any]]

    def put(self, folder: Path) -> None:
        """Lay the files out in a folder."""
        for path, content in self.files.items():
            (folder / Path(path).name).write_bytes(content)


@dataclass
class _File:
    synced: bytearray = field(default_factory=bytearray)
    waiting: list[Wrote | Truncated] = field(default_factory=list)


class Disk:
    """Follows the events; `image` draws one of the states a cut at this moment could leave."""

    def __init__(self, folder: Path) -> None:
        """Begin with the files of a folder, all of them on the disk."""
        self._files = {str(path): _File(bytearray(path.read_bytes())) for path in folder.iterdir() if path.is_file()}
        self._names = set(self._files)
        self._waiting: dict[str, bool] = {}
        self.receipts: dict[str, dict[str, Any]] = {}

    def follow(self, event: Event) -> None:
        """Let one event happen."""
        if isinstance(event, Acknowledged):
            self.receipts |= {receipt["entry"]: receipt for receipt in event.receipts}
        elif isinstance(event, Named):
            self._name(event)
        elif isinstance(event, Synced):
            self._sync(event.path)
        else:
            self._files.setdefault(event.path, _File()).waiting.append(event)

    def image(self, dice: random.Random) -> Image:
        """Draw a state: sometimes nothing more than was synced, sometimes all, mostly any part of what waited."""
        keep = dice.choice((0.0, 1.0, dice.random(), dice.random()))
        there = {name for name in self._names | set(self._waiting) if self._is_there(name, dice)}
        files = {name: _drawn(self._files[name], keep, dice) for name in there}
        return Image(files, dict(self.receipts))

    def _name(self, event: Named) -> None:
        if event.there and event.path in self._names and self._waiting.get(event.path, True):
            return
        self._waiting[event.path] = event.there
        if event.there:
            self._files[event.path] = _File()

    def _sync(self, path: str) -> None:
        for name in [name for name in self._waiting if str(Path(name).parent) == path]:
            (self._names.add if self._waiting.pop(name) else self._names.discard)(name)
        if file := self._files.get(path):
            for event in file.waiting:
                _happen(file.synced, event)
            file.waiting.clear()

    def _is_there(self, name: str, dice: random.Random) -> bool:
        return dice.random() < 0.5 if name in self._waiting else True


def images(folder: Path, happened: list[Event], count: int, seed: int) -> Iterator[Image]:
    """Cut the power at random moments, and draw an image at each."""
    dice = random.Random(seed)
    cuts = sorted(dice.randrange(len(happened) + 1) for _ in range(count))
    disk, at = Disk(folder), 0
    for cut in cuts:
        _follow(disk, happened[at:cut])
        at = cut
        yield disk.image(dice)


def _follow(disk: Disk, happened: Iterable[Event]) -> None:
    for event in happened:
        disk.follow(event)


def _drawn(file: _File, keep: float, dice: random.Random) -> bytes:
    content = bytearray(file.synced)
    for event in file.waiting:
        if dice.random() < keep:
            _happen(content, event)
        elif isinstance(event, Wrote) and 0 < keep < 1 and dice.random() < 0.5:
            _tear(content, event, dice)
    return bytes(content)


def _tear(content: bytearray, event: Wrote, dice: random.Random) -> None:
    """Let only some sectors of a write reach the disk."""
    for start in range(0, len(event.content), SECTOR):
        if dice.random() < 0.5:
            _happen(content, Wrote(event.path, event.offset + start, event.content[start : start + SECTOR]))


def _happen(content: bytearray, event: Wrote | Truncated) -> None:
    end = event.size if isinstance(event, Truncated) else event.offset + len(event.content)
    if len(content) < end:
        content.extend(bytes(end - len(content)))
    if isinstance(event, Truncated):
        del content[event.size :]
    else:
        content[event.offset : end] = event.content
