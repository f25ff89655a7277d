"""A tablet's outbox and the record beside it, as simple as they can be said: what a schedule must come to."""

from dataclasses import dataclass, field
from typing import Literal

Fate = Literal["arrives", "request lost", "answer lost", "answered 503"]
FATES: tuple[Fate, ...] = ("arrives", "request lost", "answer lost", "answered 503")
BATCH = 40


@dataclass
class Model:
    """What waits, what went against a receipt, what was told back, and what the record holds, by device count."""

    counted: int = 0
    waiting: list[int] = field(default_factory=list)
    taken: list[int] = field(default_factory=list)
    told: list[int] = field(default_factory=list)
    record: list[int] = field(default_factory=list)
    unclear: set[int] = field(default_factory=set)

    def log(self, clear: bool = True) -> int:
        """One more entry is saved; an unclear one will be taken and not understood."""
        self.counted += 1
        self.waiting.append(self.counted)
        if not clear:
            self.unclear.add(self.counted)
        return self.counted

    def send(self, fate: Fate) -> None:
        """Send what waits, in batches; a batch that gets no answer ends it."""
        while self.waiting:
            batch = self.waiting[:BATCH]
            if fate != "request lost":
                self.record += [seq for seq in batch if seq not in self.record]
            if fate != "arrives":
                return
            self.waiting = self.waiting[len(batch) :]
            for seq in batch:
                (self.told if seq in self.unclear else self.taken).append(seq)

    def nothing_is_lost(self) -> bool:
        """Every entry ever saved waits, or is in the record once; what left the outbox is in the record."""
        gone = [*self.taken, *self.told]
        everywhere = sorted([*self.waiting, *gone]) == list(range(1, self.counted + 1))
        return everywhere and set(gone) <= set(self.record) and len(set(self.record)) == len(self.record)
