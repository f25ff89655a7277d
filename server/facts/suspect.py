"""A suspect set: everything that rests on a failed check, and the neighbours that do not, each with its fact."""

from typing import Literal, NamedTuple

Whereabouts = Literal["in work", "covered", "removed", "released", "shipped"]


class Suspect(NamedTuple):
    """A joint in the widest set: the passes that put it in, and the narrowing that lets it out, if one does."""

    subject: str
    frame: str
    structural: bool
    passes: tuple[str, ...]
    because: str
    whereabouts: Whereabouts
    cleared_by: str | None = None
    cleared_reason: str = ""


class LeftOut(NamedTuple):
    """A neighbour that is not in the set, with the fact that keeps it out."""

    subject: str
    because: str


class SuspectSet(NamedTuple):
    """The widest set opened by one failed check, and its neighbours left out."""

    check: str
    subject: str
    kind: str
    thing: str
    since_ms: int | None
    until_ms: int
    suspects: tuple[Suspect, ...]
    left_out: tuple[LeftOut, ...]

    @property
    def still_in(self) -> tuple[Suspect, ...]:
        """What the signed narrowings leave."""
        return tuple(each for each in self.suspects if each.cleared_by is None)
