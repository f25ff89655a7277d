"""Where every standing finding stands, in short: carried on from decision to decision and from judging to judging.

Thousands may wait; only what a page shows of them is read in full.
"""

from collections.abc import Collection, Container, Iterable, Iterator, Mapping, Sequence, Set
from itertools import chain
from typing import NamedTuple

from server.facts.deciding import Decision
from server.facts.frame_papers import last_decided, shipped_frames
from server.facts.judged import Severity, Word
from server.facts.layered import layered
from server.facts.looked_up import carried_up, looked_up, only_new
from server.facts.registers import Registers
from server.judgement.matters import Matter, State, matters_among, state_of
from server.record.findings_short import Group, ShortFinding
from server.record.reads import Reads

_Found = Mapping[str, ShortFinding]


class ShortMatter(NamedTuple):
    """A finding in short with what the last decision on it makes of it."""

    finding: ShortFinding
    state: State

    @property
    def frame(self) -> str | None:
        """The frame it is on; none for what frames share."""
        return self.finding.frame

    @property
    def question(self) -> str:
        """What it asks."""
        return self.finding.question

    def is_a(self, severity: Severity) -> bool:
        """Tell whether it is of a severity, neither marginal nor decided on facts that have changed since."""
        it = self.finding
        return it.severity is severity and it.word is not Word.MARGINAL and self.state != "look again"


class ShortMatters:
    """Everything that stands, as one state of the record knows it."""

    def __init__(self, reads: Reads, registers: Registers) -> None:
        self._reads = reads
        self._registers = registers
        self._groups = reads.findings_short()
        self._last_decided = last_decided(registers)

    @property
    def rests_on(self) -> tuple[object, object]:
        """What it is read off: the findings that stand, and the decisions."""
        return self._groups, self._registers.decisions

    def keeping(self, frames: Set[str] | None = None) -> list[ShortMatter]:
        """Give what keeps a frame, of all or of some frames, by key: what is decided stands in its frame's history."""
        gating = (group for group in self._groups if group[1])
        if frames is None:
            return sorted((each for group in gating for each in self._waiting(group).values()), key=_key)
        found: list[ShortMatter] = []
        for by_frame in map(self._by_frame, gating):
            fewer, more = (by_frame, frames) if len(by_frame) < len(frames) else (frames, by_frame)
            found += (each for frame in fewer if frame in more for each in by_frame[frame])
        return sorted(found, key=_key)

    def waiting_on(self, questions: Container[str]) -> list[ShortMatter]:
        """Give what stands on some questions and is not decided, whether it keeps a frame or not, by key."""
        asked = (group for group in self._groups if group[0] in questions)
        return sorted((each for group in asked for each in self._waiting(group).values()), key=_key)

    def inside_not_gating(self) -> Iterator[ShortFinding]:
        """Give the notes and what is marginal of frames in the house and of what frames share, decided or not."""
        return chain.from_iterable(self._inside(group) for group in self._groups if not group[1])

    def inside_decided(self, choices: Collection[str]) -> Iterator[ShortFinding]:
        """Give what was last decided in some ways, of frames in the house and of what frames share."""
        house = self._at_home()
        for key in _decided(self._registers, choices):
            for gates in (True, False):
                each = self._groups.get((key.partition("|")[2], gates), {}).get(key)
                if each is not None and (each.frame is None or each.frame in house):
                    yield each

    def is_open(self, key: str) -> bool:
        """Tell whether nothing is decided on a finding, nor is it held."""
        decision = self._last_decided.get(key)
        return decision is None or decision.choice == "end of hold"

    def in_full(self, short: Iterable[ShortMatter | ShortFinding]) -> list[Matter]:
        """Read them in full, in the order of their keys."""
        return matters_in_full(self._reads, self._registers, {_finding(each).number for each in short})

    def _inside(self, group: Group) -> Collection[ShortFinding]:
        of_group, packets, shipments = self._groups[group], self._registers.packets, self._registers.shipments

        def read() -> list[ShortFinding]:
            house = {*self._at_home(), None}
            return [each for each in of_group.values() if each.frame in house]

        return looked_up(self._registers, f"inside|{group}", (of_group, packets, shipments), read)

    def _at_home(self) -> Collection[str]:
        packets, shipments = self._registers.packets, self._registers.shipments
        return looked_up(
            self._registers, "at home", (packets, shipments), lambda: packets.keys() - shipped_frames(self._registers)
        )

    def _by_frame(self, group: Group) -> Mapping[str | None, Sequence[ShortMatter]]:
        waiting = self._waiting(group)

        def read() -> Mapping[str | None, Sequence[ShortMatter]]:
            found: dict[str | None, list[ShortMatter]] = {}
            for each in waiting.values():
                found.setdefault(each.frame, []).append(each)
            return found

        return looked_up(self._registers, f"waiting by frame|{group}", (waiting,), read)

    def _waiting(self, group: Group) -> Mapping[str, ShortMatter]:
        of_group, decisions = self._groups[group], self._registers.decisions
        name = f"waiting|{group}"
        known = self._registers.looked_up.get(name)

        def read() -> dict[str, ShortMatter]:
            touched = self._decided_since(known[0][1]) if known is not None and known[0][0] is of_group else None
            if known is None or touched is None:
                return dict(self._not_decided(of_group, of_group))
            touched = touched & of_group.keys()
            if not touched:
                still: dict[str, ShortMatter] = known[1]
                return still
            left = {key: each for key, each in known[1].items() if key not in touched}
            return left | dict(self._not_decided(of_group, touched))

        return looked_up(self._registers, name, (of_group, decisions), read)

    def _decided_since(self, before: Mapping[str, Decision]) -> Set[str] | None:
        """The findings that decisions told since name; none where an earlier one was told anew."""
        decisions = self._registers.decisions

        def read() -> Set[str] | None:
            new = only_new(before, decisions)
            return None if new is None else {key for each in new for key in each.findings}

        return looked_up(self._registers, "decided since", (before, decisions), read)

    def _not_decided(self, found: _Found, keys: Iterable[str]) -> Iterator[tuple[str, ShortMatter]]:
        last = last_decided(self._registers)
        unknown = []
        for key in keys:
            short, decision = found[key], last.get(key)
            if decision is not None and key in decision.seen and short.digest is None:
                unknown.append(short)
            elif (state := state_of(short.digest or "", decision, key)) != "decided":
                yield key, ShortMatter(short, state)
        for matter in self.in_full(unknown):
            if matter.state != "decided":
                yield matter.finding.key, ShortMatter(found[matter.finding.key], matter.state)


def _decided(registers: Registers, choices: Collection[str]) -> Mapping[str, bool]:
    """The keys of what was last decided in some ways, carried on from decision to decision."""

    def read(known: Mapping[str, bool], more: Iterable[Decision]) -> Mapping[str, bool]:
        told = {key: each.choice in choices for each in more for key in each.findings}
        otherwise = [key for key, is_one in told.items() if not is_one and key in known]
        return layered(known, {key: True for key, is_one in told.items() if is_one}, otherwise)

    return carried_up(registers, f"decided|{sorted(choices)}", registers.decisions, read)


def matters_in_full(reads: Reads, registers: Registers, numbers: Collection[int]) -> list[Matter]:
    """Give the findings of some rows with the last decision on each."""
    return matters_among(reads.findings_at(numbers), registers)


def _finding(each: ShortMatter | ShortFinding) -> ShortFinding:
    return each.finding if isinstance(each, ShortMatter) else each


def _key(each: ShortMatter) -> str:
    return each.finding.key
