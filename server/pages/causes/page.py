"""What the cause table shows: the words on every cause, those that speak first."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote

from server.facts.legal_hold import LegalHold
from server.judgement.cause_table import CauseWord, Says
from server.pages.frame.paged import Part, part_of
from server.work.decided_before import DecidedBefore
from server.work.joint_causes import JointCauses
from server.work.shares_cause import SharesCause

SHOWN = 50
"""How many of the joints that share a cause stand on the page; all of them stand in the CSV."""
_ORDER: tuple[Says, ...] = ("supports", "silent", "excludes")
SHAPES: dict[Says, str] = {"supports": "■", "silent": "◇", "excludes": "○"}


@dataclass(frozen=True, slots=True)
class CausesPage:
    """One joint's causes; `home` are those frames of the joints shown that came back and have not left again."""

    found: JointCauses
    before: tuple[DecidedBefore, ...] = ()
    hold: LegalHold | None = None
    part: int = 1
    home: frozenset[str] = frozenset()

    def shape(self, word: CauseWord) -> str:
        """The mark beside the word."""
        return SHAPES[word.says]

    @property
    def frames_sharing(self) -> int:
        """How many frames have a joint that shares a cause."""
        return len({each.frame for each in self.found.sharing})

    @property
    def sharing(self) -> Part[SharesCause]:
        """The joints that share a cause and stand on this page."""
        return part_of(self.found.sharing, self.part, SHOWN, self.address)

    @property
    def address(self) -> str:
        """The address of this table."""
        return f"/history/{quote(self.found.frame, '')}/{quote(self.found.joint, '')}/causes"

    def subjects(self, keys: Sequence[str]) -> list[str]:
        """What findings are about, by their keys."""
        return [key.partition("|")[0] for key in keys]

    @property
    def groups(self) -> list[tuple[Says, list[CauseWord]]]:
        """Give the causes by what the record says of them."""
        return [(says, [each for each in self.found.words if each.says == says]) for says in _ORDER]
