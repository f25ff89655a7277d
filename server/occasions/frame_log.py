"""One frame's entries in true time, sorted by what they are and, where they are about a joint, by attempt."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from server.occasions.timed import Timed

_OF_A_JOINT = frozenset({"pass", "tack", "look", "gap", "clean", "removed", "release"})
_ABOUT_A_JOINT = frozenset({"photo", "problem"})


@dataclass(slots=True)
class Attempt:
    """Everything logged about one attempt at one joint, by kind."""

    joint: str
    number: int
    passes: list[Timed] = field(default_factory=list)
    tacks: list[Timed] = field(default_factory=list)
    by_kind: dict[str, list[Timed]] = field(init=False)
    _repair: bool | None = None

    def __post_init__(self) -> None:
        self.by_kind = defaultdict(list, {"pass": self.passes, "tack": self.tacks})

    @property
    def repair(self) -> bool:
        """A repair is an attempt with a repair run; cutting out and making anew is not."""
        if self._repair is None:
            self._repair = any(each.entry.run == "repair" for each in self.passes)
        return self._repair

    def of(self, kind: str) -> list[Timed]:
        """Its entries of one kind in true time."""
        return self.by_kind.get(kind, [])

    def begun(self) -> Timed | None:
        """The first tack or pass of this attempt."""
        tacks, passes = self.tacks, self.passes
        if not tacks or not passes:
            return tacks[0] if tacks else passes[0] if passes else None
        return passes[0] if _at_ms(passes[0]) < _at_ms(tacks[0]) else tacks[0]


class FrameLog:
    """The sorted log of one frame."""

    def __init__(self, frame: str, entries: Iterable[Timed]) -> None:
        self.frame = frame
        self.attempts: dict[tuple[str, int], Attempt] = {}
        self.by_kind: dict[str, list[Timed]] = defaultdict(list)
        self._about: dict[tuple[str, str | None], list[Timed]] = defaultdict(list)
        for timed in entries:
            told = vars(timed[4])
            kind = told["kind"]
            self.by_kind[kind].append(timed)
            if kind in _OF_A_JOINT:
                self._attempt(told["joint"], told["attempt"]).by_kind[kind].append(timed)
            elif kind in _ABOUT_A_JOINT:
                self._about[kind, told["joint"]].append(timed)
        self.reached_first: dict[tuple[str, str], Timed | None] = {}
        self.joints: dict[str, list[Attempt]] = defaultdict(list)
        for _, attempt in sorted(self.attempts.items()):
            self.joints[attempt.joint].append(attempt)

    def of(self, kind: str) -> list[Timed]:
        """The frame's entries of one kind in true time."""
        return self.by_kind.get(kind, [])

    def every(self) -> list[Timed]:
        """All the frame's entries, kind by kind in true time."""
        return [each for told in self.by_kind.values() for each in told]

    def about(self, kind: str, joint: str) -> list[Timed]:
        """The frame's photos or problems about one joint in true time, whatever the attempt."""
        return self._about.get((kind, joint), [])

    def reached(self, *stages: str) -> Timed | None:
        """The first time one of these stages was reached."""
        return next((each for each in self.of("stage") if each.entry.stage in stages), None)

    def _attempt(self, joint: str, number: int) -> Attempt:
        found = self.attempts.get((joint, number))
        if found is None:
            found = self.attempts[joint, number] = Attempt(joint, number)
        return found


def _at_ms(timed: Timed) -> int:
    return timed.at.at_ms
