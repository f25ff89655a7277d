"""Signed papers as occasions: what a nonconformity holds against what its check reaches, and uses of concessions."""

from collections import defaultdict
from collections.abc import Iterator

from server.facts.deciding import Concession, Decision, Nonconformity
from server.facts.frame_papers import decisions_using, told_order
from server.facts.occasion_paper import ConcessionOccasion, NonconformityOccasion
from server.facts.subject import JointSubject, read_joint_subject
from server.occasions.about import About, asked_about
from server.occasions.failed_checks import FailedCheck
from server.occasions.suspects import suspect_set
from server.occasions.tables import Tables


def nonconformity_occasions(tables: Tables, about: About = None) -> Iterator[NonconformityOccasion]:
    """Give each nonconformity, or some, once for each failed check it is about."""
    papers = asked_about(tables.registers.nonconformities, about)
    by_key = {f"{failed.subject}|{failed.question}": failed for failed in tables.failed.every()} if papers else {}
    for paper in map(tables.registers.nonconformities.__getitem__, papers):
        for key in paper.findings:
            if (failed := by_key.get(key)) is not None:
                yield _held_against(tables, paper, failed)


def concession_occasions(tables: Tables, about: About = None) -> Iterator[ConcessionOccasion]:
    """Give every use of every concession in the order of signing; a frame counts once however many joints it has."""
    frames_used: dict[str, list[str]] = defaultdict(list)
    by_concession = decisions_using(tables.registers)
    uses = [each for name in asked_about(by_concession, about) for each in by_concession[name]]
    told = told_order(tables.registers)
    for decision in sorted(uses, key=lambda each: (_signed_ms(each), told[each.id])):
        subjects = [found for key in decision.findings if (found := read_joint_subject(key.partition("|")[0]))]
        for subject in dict.fromkeys(subjects):
            used = frames_used[decision.concession or ""]
            if subject.frame not in used:
                used.append(subject.frame)
            yield _use(tables, decision, subject, used.index(subject.frame) + 1)


def _held_against(tables: Tables, paper: Nonconformity, failed: FailedCheck) -> NonconformityOccasion:
    reached = [each.subject for each in suspect_set(tables, failed).still_in]
    held = set(paper.held)
    return NonconformityOccasion(
        subject=paper.id,
        nonconformity=paper.id,
        check=failed.check,
        reached=tuple(reached),
        missed=tuple(subject for subject in reached if subject not in held),
        accept=tables.at(tables.days.day_of(failed.until_ms)),
    )


def _use(tables: Tables, decision: Decision, subject: JointSubject, number: int) -> ConcessionOccasion:
    concession = tables.registers.concessions.get(decision.concession or "")
    signed_ms = _signed_ms(decision)
    return ConcessionOccasion(
        subject=str(subject._replace(quarter=None)),
        concession=decision.concession or "",
        known=concession is not None,
        frame=subject.frame,
        number=number,
        count=concession.count if concession else None,
        frame_named=concession is not None and subject.frame in concession.frames,
        joint_named=concession is not None and _names(concession, subject),
        expired=concession is not None and concession.expires is not None and signed_ms > concession.expires,
        decision=decision.id,
        accept=tables.at(tables.days.day_of(signed_ms)),
    )


def _names(concession: Concession, subject: JointSubject) -> bool:
    """A concession that names no joint covers every joint of its frames; one may name a joint with or without frame."""
    spelled = {subject.joint, f"{subject.frame}/{subject.joint}", str(subject), str(subject._replace(quarter=None))}
    return not concession.joints or bool(spelled & set(concession.joints))


def _signed_ms(decision: Decision) -> int:
    return max(each.at for each in decision.signatures)
