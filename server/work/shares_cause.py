"""Finds what else, still in product, rests on the cause of a claim: the same failed check, the same wrong rods."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_joint import JointOccasion
from server.judgement.book import THEN
from server.judgement.judge import judge
from server.occasions.holds import failed_under
from server.occasions.suspects import suspect_set
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.what_else import Shared, shared_of

QUESTION = "shares-cause"
_WRONG_ROD = "rod-class"


class SharesCause(NamedTuple):
    """A joint that shares the cause: the finding in words, and where the joint is and who has its frame."""

    verdict: Verdict
    shared: Shared


def shares_cause(tables: Tables, claimed: JointOccasion) -> tuple[SharesCause, ...]:
    """Give every other joint, not made again, that rests on what the claimed one is held by or was filled with."""
    found: dict[str, SharesCause] = {}
    for subject, because, rests_on in (*_held(tables, claimed), *_same_rods(tables, claimed)):
        if subject in found or subject == claimed.subject:
            continue
        uses = [each for each in tables.uses.by_frame[subject.partition("/")[0]] if each.subject == subject]
        if tables.uses.made_again(uses[0]):
            continue
        verdict = Verdict(QUESTION, subject, Word.OUTSIDE, Severity.STOP, because, rests_on=rests_on)
        found[subject] = SharesCause(verdict, shared_of(tables, uses))
    return tuple(found.values())


_Because = tuple[str, str, tuple[str, ...]]


def _held(tables: Tables, claimed: JointOccasion) -> Iterator[_Because]:
    """What the signed narrowings leave in the sets that hold the claimed joint."""
    holding = {hold.check: hold for hold in claimed.holds if hold.cleared_by is None}
    under = (failed for each in claimed.passes for failed in failed_under(tables, each))
    reaching = {failed.check: failed for failed in under if failed.check in holding}
    for failed in tables.failed.in_order(reaching.values()):
        hold = holding[failed.check]
        for each in suspect_set(tables, failed).still_in:
            said = f"Rests on {hold.subject}, a failed {hold.kind}, as {claimed.subject} does: it {each.because}."
            yield each.subject, said, (hold.check, *each.passes)


def _same_rods(tables: Tables, claimed: JointOccasion) -> Iterator[_Because]:
    """What was filled from a sleeve whose rods were wrong in the claimed joint."""
    for sleeve in dict.fromkeys(_wrong_sleeves(claimed)):
        said = f"Filled from sleeve {sleeve}, as {claimed.subject} was, whose rods are not of the class asked."
        for subject, of_joint in _by_subject(tables.uses.by_sleeve.get(sleeve, ())).items():
            yield subject, said, tuple(use.entry for use in of_joint)


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
