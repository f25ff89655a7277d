"""What the papers' screens show: the list of nonconformities, one of them, and the concessions with their uses."""

from dataclasses import dataclass

from server.facts.deciding import Concession, Nonconformity
from server.facts.people import Person


@dataclass(frozen=True, slots=True)
class NonconformitiesPage:
    """All nonconformities, open ones first."""

    papers: tuple[Nonconformity, ...]
    done: str


@dataclass(frozen=True, slots=True)
class NonconformityPage:
    """One nonconformity to read and tell anew, or an empty one to open."""

    paper: Nonconformity | None
    seen_position: int
    tellings: int
    filled: dict[str, str]
    signers: tuple[Person, ...]
    problems: tuple[str, ...]

    def words(self, name: str) -> str:
        """Give what stands in a field: what was just written, else what the paper says."""
        if name in self.filled:
            return self.filled[name]
        said = getattr(self.paper, name, None) if self.paper else None
        return "\n".join(said) if isinstance(said, tuple) else said or ""


@dataclass(frozen=True, slots=True)
class ConcessionState:
    """One concession with the frames it was used for, and whether it may still be used."""

    paper: Concession
    used: tuple[str, ...]
    expired: bool

    @property
    def stands(self) -> str:
        """Say how it stands."""
        if self.expired:
            return "expired"
        if self.paper.count is not None and len(self.used) >= self.paper.count:
            return "used up"
        return "may be used"


@dataclass(frozen=True, slots=True)
class ConcessionsPage:
    """All concessions, and the form that gives one."""

    papers: tuple[ConcessionState, ...]
    questions: tuple[tuple[str, str], ...]
    signers: tuple[Person, ...]
    problems: tuple[str, ...]
    filled: dict[str, str]
    done: str
