"""`GET /api/verdicts`: what the record says of a frame, or of the joint an entry is about, once it has been judged."""

import json
from typing import Annotated, Any

from fastapi import APIRouter, Depends, HTTPException, Query, Request
from pydantic import BaseModel, Field

from server.api.admission import signed_in
from server.api.problem import documented
from server.facts.judged import Severity, Verdict, Word
from server.facts.subject import JointSubject
from server.record.book_of_lines import Record
from server.record.reads import Reads
from server.work.refusal import NotThere

router = APIRouter(prefix="/api", tags=["verdicts"])
_Name = Annotated[str | None, Query(min_length=1, max_length=160)]


class VerdictShown(BaseModel):
    """One of the five words on one question about one subject, with the limit it met."""

    key: str
    question: str
    subject: str
    word: Word
    severity: Severity
    message: str
    value: float | str | None
    unit: str
    low: float | None
    high: float | None
    allowed: list[str]
    uncertainty: float | None
    proved: bool
    source: str
    caution: str
    rests_on: list[str]


class Verdicts(BaseModel):
    """The verdicts; `judged` is false while the record has the entry but has not judged it yet."""

    judged: bool
    judged_to: int = Field(description="record position up to which everything has been judged")
    verdicts: list[VerdictShown]


@router.get("/verdicts", dependencies=[Depends(signed_in)], responses=documented(401, 404, 422))
def verdicts(request: Request, frame: _Name = None, entry: _Name = None) -> Verdicts:
    """Give the verdicts on a frame, or on the joint and attempt one entry is about."""
    if (frame is None) == (entry is None):
        raise HTTPException(422, "frame and entry: name one of them, `?frame=...` or `?entry=...`")
    record: Record = request.app.state.record
    with record.reads() as reads:
        return _of_frame(reads, frame) if frame is not None else _of_entry(reads, str(entry))


def _of_frame(reads: Reads, frame: str) -> Verdicts:
    found = reads.verdicts_of_frame(frame)
    told = [_shown(verdict) for verdicts in found.values() for verdict in verdicts]
    return Verdicts(judged=True, judged_to=reads.judged_to(), verdicts=told)


def _of_entry(reads: Reads, entry: str) -> Verdicts:
    line = reads.line(entry) if entry.isprintable() else None
    if line is None or line.kind != "entry":
        raise NotThere(f"there is no entry {entry!r} in the record; ask by the id on its receipt")
    judged_to = reads.judged_to()
    subject = _subject(line.body) if line.state == "taken" else None
    told = [_shown(verdict) for verdict in reads.verdicts_of(subject)] if subject else []
    return Verdicts(judged=judged_to >= line.position, judged_to=judged_to, verdicts=told)


def _subject(body: bytes) -> str | None:
    entry: dict[str, Any] = json.loads(body)
    if "frame" not in entry or "joint" not in entry:
        return None
    return str(JointSubject(entry["frame"], entry["joint"], entry.get("attempt", 1)))


def _shown(verdict: Verdict) -> VerdictShown:
    return VerdictShown(**verdict._asdict(), key=verdict.key)
