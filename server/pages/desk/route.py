"""The desk's addresses: the morning list, and deciding on one or several findings at once."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated, get_args

from fastapi import APIRouter, Depends, Form, Query, Request, UploadFile
from fastapi.responses import Response
from pydantic import TypeAdapter

from server.facts.deciding import Choice
from server.facts.subject import read_joint_subject
from server.judgement.matters import Matter, matters
from server.pages.desk.page import CHOICES, MOST_ROWS, DecidePage, DeskPage, QuestionPage, ShippedPage
from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings, signers
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import now_ms
from server.record.reads import Reads
from server.work.decide import DecisionAsked, decide
from server.work.evidence_files import MOST_FILES, chosen_pictures, declared_on, keep_evidence
from server.work.frame_history import frame_history, tell
from server.work.frame_photos import ShownPhoto, frame_photos
from server.work.morning_list import morning_list, open_on_shipped
from server.work.refusal import NotThere, Refusal, Unreadable

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("quality lead", "owner"))]
Keys = Annotated[list[str], Query(max_length=500, default_factory=list)]


@router.get("/desk", dependencies=[Depends(needs("quality lead", "owner"))])
def morning(request: Request, done: str = "") -> Response:
    """Show what waits this morning."""
    with request.app.state.record.reads() as reads:
        found = morning_list(reads, MOST_ROWS)
    return show(request, "desk/desk.html", DeskPage(found, done))


@router.get("/desk/question/{question}", dependencies=[Depends(needs("quality lead", "owner"))])
def one_question(request: Request, question: str) -> Response:
    """Show everything the morning list holds about one question."""
    with request.app.state.record.reads() as reads:
        found = morning_list(reads)
    if not (groups := found.about(question)):
        raise NotThere(f"{question!r}: nothing waits on it any more; see the morning list")
    return show(request, "desk/question.html", QuestionPage(question, found, groups))


@router.get("/open-on-shipped", dependencies=[Depends(needs("quality lead", "owner"))])
def on_shipped(request: Request) -> Response:
    """Show what is open on frames that have left the house."""
    with request.app.state.record.reads() as reads:
        page = ShippedPage(open_on_shipped(reads))
    return show(request, "desk/shipped.html", page)


@router.get("/desk/decide", dependencies=[Depends(needs("quality lead", "owner"))])
def look_closer(request: Request, key: Keys, choice: str = "") -> Response:
    """Show the findings chosen, with what they rest on and the form that decides; a choice may be filled in."""
    if not key:
        raise Unreadable("no finding is chosen; tick those that one reason decides, then press the button once more")
    with request.app.state.record.reads() as reads:
        page = _page(reads, key, (), {"choice": choice} if choice in get_args(Choice) else {})
    return show(request, "desk/decide.html", page)


@router.post("/desk/decide")
def sign(
    request: Request,
    visitor: Lead,
    key: Annotated[list[str], Form()],
    choice: Annotated[str, Form()],
    shown_sha256: Annotated[str, Form(max_length=64)],
    secret: Annotated[str, Form(max_length=200)],
    decided: Annotated[str | None, Form(max_length=200_000)] = None,
    reason: Annotated[str, Form(max_length=4000)] = "",
    concession: Annotated[str, Form(max_length=80)] = "",
    second: Annotated[str, Form(max_length=60)] = "",
    second_secret: Annotated[str, Form(max_length=200)] = "",
    photo: Annotated[list[str] | None, Form(max_length=MOST_FILES)] = None,
    files: list[UploadFile] | None = None,
) -> Response:
    """Sign the decision; when it may not stand, show why with everything still filled in but the files."""
    record = request.app.state.record
    filled = {"choice": choice, "reason": reason, "concession": concession, "second": second}
    filled |= dict.fromkeys(photo or (), "ticked")
    try:
        if choice not in get_args(Choice):
            raise Refusal(f"choice: {choice!r} is none of {', '.join(get_args(Choice))}")
        signings = proved_signings(request, visitor, f"decided: {choice}", secret, second, second_secret)
        attached = _attached(request, photo or (), files or ())
        asked = DecisionAsked(
            choice=choice,  # type: ignore[arg-type]
            findings=tuple(key),
            shown_sha256=shown_sha256,
            reason=reason,
            signings=tuple(replace(each, meaning=declared_on(each.meaning, attached)) for each in signings),
            concession=concession or None,
            attachments=attached,
            decided=None if decided is None else _names(decided),
        )
        number = record.write(lambda reads: decide(reads, asked, now_ms())).result()
    except Refusal as refusal:
        with record.reads() as reads:
            return show(request, "desk/decide.html", _page(reads, key, tuple(refusal.problems), filled), 422)
    return lead_on(f"/desk?done={len(key)}", number)


def _names(told: str) -> tuple[str, ...]:
    try:
        return TypeAdapter(tuple[str, ...]).validate_json(told)
    except ValueError:
        raise Refusal("decided: the page does not say which decisions stood on it; open the finding anew") from None


def _attached(request: Request, photos: Sequence[str], files: Sequence[UploadFile]) -> tuple[str, ...]:
    """Keep what came with the form, now that it is known who sent it, and name it beside the pictures ticked."""
    with request.app.state.record.reads() as reads:
        ticked = chosen_pictures(reads, photos)
    kept = keep_evidence(request.app.state.files, (each.file.read() for each in files if each.filename))
    return tuple(dict.fromkeys((*ticked, *kept)))


def _page(reads: Reads, keys: list[str], problems: tuple[str, ...], filled: dict[str, str]) -> DecidePage:
    registers = reads.registers()
    standing = matters(reads.findings(keys=keys), registers.decisions.values())
    if not standing:
        raise NotThere("These findings do not stand any more; they were judged again meanwhile. Open the list anew.")
    ids = {entry for each in standing for entry in each.finding.verdict.rests_on}
    return DecidePage(
        matters=tuple(standing),
        told=tuple(tell(reads, reads.entries_named(ids))),
        choices=CHOICES,
        signers=signers(reads),
        concessions=tuple(registers.concessions.values()),
        problems=problems,
        filled=filled,
        photos=_photos(reads, standing),
    )


def _photos(reads: Reads, standing: Sequence[Matter]) -> tuple[ShownPhoto, ...]:
    """Give the pictures of the joints in question, where all of them are of one frame."""
    frames = {each.finding.frame for each in standing}
    frame = frames.pop() if len(frames) == 1 else None
    if frame is None:
        return ()
    joints = {found.joint for each in standing if (found := read_joint_subject(each.finding.verdict.subject))}
    photos = frame_photos(reads, frame_history(reads, frame))
    return tuple(each for each in photos if each.joint in joints or not joints)
