"""Every standing finding in short, in groups by question: read once, then carried on from row to row."""

import threading
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple, TypeAlias

from server.facts.judged import Severity, Word


class ShortFinding(NamedTuple):
    """A standing finding without its verdict: the row it stands in, what it is about, and the digest a signer sees.

    What is marginal has no digest here: most findings are, hardly any is ever decided, and a digest takes long.
    """

    number: int
    key: str
    frame: str | None
    question: str
    word: Word
    severity: Severity
    digest: str | None

    @property
    def gates(self) -> bool:
        """Tell whether it keeps a frame until it is decided."""
        return self.severity is not Severity.NOTE and self.word is not Word.MARGINAL


class Change(NamedTuple):
    """One row that was appended: a finding, or that there is none any more under its key."""

    finding: ShortFinding
    gone: bool


Group: TypeAlias = tuple[str, bool]
"""A question, and whether its findings gate: a note never does, nor does what is marginal."""
Groups: TypeAlias = Mapping[Group, Mapping[str, ShortFinding]]
Read: TypeAlias = Callable[[int, int], Iterable[Change]]


class FindingsShort:
    """The groups as known at the newest row; shared by all readers, so a group is never changed, only made anew."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._groups: Groups = {}
        self._read_to = 0

    def up_to(self, number: int, read: Read) -> Groups | None:
        """Give the groups as known at a row, reading only what came since; none when more is known already."""
        with self._lock:
            if number > self._read_to:
                self._groups = with_changes(self._groups, read(self._read_to, number))
                self._read_to = number
            return self._groups if number == self._read_to else None


def with_changes(known: Groups, changes: Iterable[Change]) -> Groups:
    """Give the groups with further rows read into them."""
    groups: dict[Group, dict[str, ShortFinding]] = {}
    for finding, gone in changes:
        # A verdict that turned marginal, or no longer does, has left the other group of its question.
        for gates in (False, True):
            group = finding.question, gates
            if group not in groups:
                groups[group] = dict(known.get(group, {}))
            groups[group].pop(finding.key, None)
        if not gone:
            groups[finding.question, finding.gates][finding.key] = finding
    return {**known, **groups}
