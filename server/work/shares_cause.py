"""Finds what else, still in product, rests on the cause of a claim: the same failed check, the same wrong rods."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_joint import HoldFact, JointOccasion
from server.judgement.book import THEN
from server.judgement.judge import judge
from server.occasions.failed_checks import FailedCheck
from server.occasions.holds import failed_under
from server.occasions.suspects import because, reached, stays
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.what_else import Shared, shared_of

QUESTION = "shares-cause"
_WRONG_ROD = "rod-class"


@dataclass(frozen=True, slots=True)
class SharesCause:
    """A joint that shares the cause, by these passes; in words, and with where it is, for whoever asks."""

    _tables: Tables
    _claimed: str
    _uses: Sequence[Use]
    _held: tuple[FailedCheck, HoldFact] | None

    @property
    def subject(self) -> str:
        """The joint and attempt."""
        return self._uses[0].subject

    @property
    def frame(self) -> str:
        """Its frame."""
        return self._uses[0].frame

    @property
    def verdict(self) -> Verdict:
        """The finding in words."""
        said, rests_on = self._because()
        return Verdict(QUESTION, self.subject, Word.OUTSIDE, Severity.STOP, said, rests_on=rests_on)

    @property
    def shared(self) -> Shared:
        """Where the joint is and who has its frame."""
        of_frame = self._tables.uses.by_frame[self.frame]
        return shared_of(self._tables, [each for each in of_frame if each.subject == self.subject])

    def _because(self) -> tuple[str, tuple[str, ...]]:
        passes = tuple(use.entry for use in self._uses)
        if self._held is None:
            sleeve = self._uses[0].sleeve
            said = f"Filled from sleeve {sleeve}, as {self._claimed} was, whose rods are not of the class asked."
            return said, passes
        failed, hold = self._held
        it = because(failed, self._uses)
        said = f"Rests on {hold.subject}, a failed {hold.kind}, as {self._claimed} does: it {it}."
        return said, (hold.check, *passes)


def shares_cause(tables: Tables, claimed: JointOccasion) -> tuple[SharesCause, ...]:
    """Give every other joint, not made again, that rests on what the claimed one is held by or was filled with."""
    found: dict[str, SharesCause] = {}
    for subject, uses, held in (*_held(tables, claimed), *_same_rods(tables, claimed)):
        if subject in found or subject == claimed.subject or tables.uses.made_again(uses[0]):
            continue
        found[subject] = SharesCause(tables, claimed.subject, uses, held)
    return tuple(found.values())


_Because = tuple[str, Sequence[Use], tuple[FailedCheck, HoldFact] | None]


def _held(tables: Tables, claimed: JointOccasion) -> Iterator[_Because]:
    """What the signed narrowings leave in the sets that hold the claimed joint."""
    holding = {hold.check: hold for hold in claimed.holds if hold.cleared_by is None}
    under = (failed for each in claimed.passes for failed in failed_under(tables, each))
    reaching = {failed.check: failed for failed in under if failed.check in holding}
    for failed in tables.failed.in_order(reaching.values()):
        for subject, uses in sorted(reached(tables, failed).items()):
            if stays(tables, failed, uses):
                yield subject, uses, (failed, holding[failed.check])


def _same_rods(tables: Tables, claimed: JointOccasion) -> Iterator[_Because]:
    """What was filled from a sleeve whose rods were wrong in the claimed joint."""
    for sleeve in dict.fromkeys(_wrong_sleeves(claimed)):
        for subject, of_joint in _by_subject(tables.uses.by_sleeve.get(sleeve, ())).items():
            yield subject, of_joint, None


def _wrong_sleeves(claimed: JointOccasion) -> Iterator[str]:
    for each in claimed.passes:
        answers = {said.question: said.word for said in judge(each, THEN)}
        if each.rod and answers.get(_WRONG_ROD) is Word.OUTSIDE:
            yield each.rod.sleeve


def _by_subject(every: Iterable[Use]) -> dict[str, list[Use]]:
    found: dict[str, list[Use]] = {}
    for use in every:
        found.setdefault(use.subject, []).append(use)
    return found
