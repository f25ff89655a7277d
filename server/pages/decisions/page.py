"""What the page of a decision shows."""

from dataclasses import dataclass

from server.facts.deciding import Decision
from server.work.evidence_files import EvidenceFile


@dataclass(frozen=True, slots=True)
class DecisionPage:
    """One decision and the files it rests on."""

    decision: Decision
    files: tuple[EvidenceFile, ...]
