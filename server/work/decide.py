"""A quality lead decides about findings: with a reason, signed over what was on the screen, by as many as it needs."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Protocol

from server.facts.deciding import Choice, Decision, Signature
from server.facts.finding import Finding, digest_of
from server.facts.frame_papers import decisions_naming
from server.facts.recorded import Recorded
from server.facts.registers import Registers
from server.judgement.conceding import Use, why_not_covered
from server.judgement.repair_signers import repair_signers
from server.judgement.signing import what_is_wrong_with
from server.occasions.days import Days
from server.record.written import Written
from server.work.refusal import NotThere, Refusal
from server.work.signature import Signing, signature
from server.work.telling import told_line
from server.work.told_once import ToldBefore, told_before


class DecisionRefused(Refusal):
    """A decision that may not stand as it was signed; each problem says why and what to do."""


class FactsChanged(Refusal):
    """What was on the screen is no longer what the record says."""


class DecidedMeanwhile(Refusal):
    """Somebody else decided about a finding while this decision was being written."""


class DecisionQuestions(Protocol):
    """What a decision asks the record."""

    def findings(self, *, keys: Sequence[str] | None = None) -> list[Finding]:
        """Give the findings that stand under some keys."""

    def entries_named(self, ids: Sequence[str]) -> list[Recorded]:
        """Give the entries of these ids."""

    def registers(self) -> Registers:
        """Give the registers as they stand."""

    def last_position(self) -> int:
        """Give the position of the last line."""


@dataclass(frozen=True, slots=True)
class DecisionAsked:
    """What is to be decided: about which findings, as seen (by digest), how, why, and who signs."""

    choice: Choice
    findings: tuple[str, ...]
    shown_sha256: str
    reason: str
    signings: tuple[Signing, ...]
    concession: str | None = None
    nonconformity: str | None = None
    one_person: bool = False
    attachments: tuple[str, ...] = ()
    decided: tuple[str, ...] | None = None
    """The last decisions that stood on the screen; none where nobody looked at one."""


def decide(reads: DecisionQuestions, asked: DecisionAsked, now_ms: int) -> Written[str]:
    """Append the decision and answer its id; raises when a finding is gone, has changed, or may not be decided so."""
    findings = tuple(reads.findings(keys=asked.findings))
    registers = reads.registers()
    told = _paper(asked, findings, reads.last_position(), now_ms)
    if before := _said_last(asked, told, registers):
        return Written(answer=lambda _: before)
    _still_as_shown(asked, findings)
    _not_decided_meanwhile(asked, findings, registers)
    signatures = tuple(Signature.model_validate(each) for each in told["signatures"])
    made = reads.entries_named(_rested_on(findings))
    made_by = frozenset(each.entry.who for each in made)
    today = date.fromordinal(Days(registers.zone).day_of(now_ms))
    roles = repair_signers([finding.verdict.subject for finding in findings], registers, today)
    problems = what_is_wrong_with(asked.choice, signatures, made_by, asked.reason, roles, asked.concession)
    made_ms = min((each.entry.happened for each in made), default=None)
    problems += _not_conceded(asked, Use(findings, now_ms, made_ms), registers)
    if problems:
        raise DecisionRefused(*problems)
    Decision.model_validate(told)
    return Written(answer=lambda _: str(told["id"]), lines=(told_line(told, now_ms),))


def _not_conceded(asked: DecisionAsked, use: Use, registers: Registers) -> list[str]:
    if asked.choice == "deviation permit":
        return ["choice: a deviation permit is given before the work; what is made is used as is, under a concession"]
    if asked.concession is None:
        return []
    if asked.choice != "use as is":
        return [f"concession: {asked.choice} needs none; leave the field empty, or choose use as is"]
    found = registers.concessions.get(asked.concession)
    if found is None:
        return [f"concession: nobody has given {asked.concession!r}; choose from the list or ask both roles for one"]
    return why_not_covered(found, use, registers.decisions.values())


def _still_as_shown(asked: DecisionAsked, findings: tuple[Finding, ...]) -> None:
    gone = sorted(set(asked.findings) - {finding.key for finding in findings})
    if gone:
        raise NotThere(f"{gone[0]} is not a finding that stands; it was judged again meanwhile. Open the list anew.")
    if digest_of(findings) != asked.shown_sha256:
        raise FactsChanged("The facts changed while you looked. Nothing was signed; read it again, then sign.")


def _said_last(asked: DecisionAsked, told: dict[str, Any], registers: Registers) -> ToldBefore | None:
    """Give the decision that stands last on all of these findings, where it says the same over the same sheet."""
    last = list(_last_on(asked.findings, registers).values())
    over = {each.shown_sha256 for decision in last for each in decision.signatures}
    # Two decisions stand last where a later one is about some of them only.
    return told_before(told, last, but=("frame", "seen")) if (len(last), over) == (1, {asked.shown_sha256}) else None


def last_decisions(findings: Iterable[Finding], registers: Registers) -> dict[str, Decision]:
    """Give the last decision on each of some findings, by its id."""
    return _last_on([each.key for each in findings], registers)


def _last_on(keys: Sequence[str], registers: Registers) -> dict[str, Decision]:
    last = {key: each for each in decisions_naming(registers, keys) for key in each.findings}
    return {last[key].id: last[key] for key in keys if key in last}


def _not_decided_meanwhile(asked: DecisionAsked, findings: tuple[Finding, ...], registers: Registers) -> None:
    """A later decision follows an earlier one only where its signer has read it: two may look at the same finding."""
    if asked.decided is None:
        return
    since = [each for name, each in last_decisions(findings, registers).items() if name not in asked.decided]
    if since:
        told = "; ".join(_said_by(each, registers) for each in since)
        raise DecidedMeanwhile(f"While you looked, {told}. Nothing of yours was signed; read that first, then sign.")


def _said_by(decision: Decision, registers: Registers) -> str:
    people = [registers.people.get(each.person) for each in decision.signatures]
    names = " and ".join(each.name for each in people if each) or "somebody else"
    return f"{names} decided: {decision.choice}, {decision.reason.rstrip('.')}"


def _paper(asked: DecisionAsked, findings: tuple[Finding, ...], position: int, now_ms: int) -> dict[str, Any]:
    frames = {finding.frame for finding in findings}
    frame = frames.pop() if len(frames) == 1 else None
    told: dict[str, Any] = {
        "kind": "decision",
        "id": f"D-{position + 1}-{asked.shown_sha256[:8]}",
        "choice": asked.choice,
        "findings": sorted(finding.key for finding in findings),
        "seen": {finding.key: finding.digest for finding in findings},
        "reason": asked.reason.strip(),
        "signatures": [
            signature(each, asked.shown_sha256, now_ms, one_person=asked.one_person) for each in asked.signings
        ],
        "attachments": list(asked.attachments),
    }
    optional = {"frame": frame, "concession": asked.concession, "nonconformity": asked.nonconformity}
    return told | {name: value for name, value in optional.items() if value}


def _rested_on(findings: tuple[Finding, ...]) -> list[str]:
    return sorted({entry for finding in findings for entry in finding.verdict.rests_on})
