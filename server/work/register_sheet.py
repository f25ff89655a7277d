"""Reads one register file of a shop folder: every table in it becomes a register line."""

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel, ConfigDict, ValidationError, create_model

from server.facts.moment import parse_moment
from server.sheets.complaint import Complaint, SheetRefused
from server.sheets.reading import complaints
from server.sheets.sheet import Sheet
from server.work.folder_line import NOUNS, FolderLine, line_of
from server.work.sealable import sealable, with_whole_figures_as_text

_TABLES: dict[str, Any] = {
    kind.replace(" ", "_"): (tuple[noun, ...], ())  # type: ignore[valid-type]
    for kind, noun in NOUNS.items()
    if kind not in ("shop", "procedure", "design")
}
RegisterSheet: type[BaseModel] = create_model(
    "RegisterSheet", __config__=ConfigDict(frozen=True, extra="forbid"), **_TABLES
)
_NAMED_BY = {
    "packet": ("frame",),
    "piece": ("frame", "member"),
    "confirmation": ("qualification", "dated"),
    "calibration": ("instrument", "at"),
    "ownership": ("frame", "since"),
    "acceptance": ("name", "valid_from"),
}
_WRITE_A_MOMENT = "Write it without quotes and with its offset, as 2025-05-05T07:30:00+02:00."
_WRITE_PIECES = 'Write it as { ST = "a heat", DT = "another" }; an empty text says the tag was lost.'


def read_register(text: str, file: str) -> list[FolderLine]:
    """Give a line for every table; raises SheetRefused with everything wrong at once."""
    sheet = Sheet(text, file)
    told = sealable(sheet.values)
    received, wrong = _taken_out(told, sheet)
    if wrong:
        raise SheetRefused(wrong)
    nouns = _nouns(told, sheet)
    return [
        line_of(noun, row, received.get((table, number)))
        for table, rows in told.items()
        for number, (row, noun) in enumerate(zip(rows, getattr(nouns, table), strict=True))
    ]


def _nouns(told: dict[str, Any], sheet: Sheet) -> BaseModel:
    try:
        return RegisterSheet.model_validate(told)
    except ValidationError as refused:
        if with_whole_figures_as_text(told, refused):
            return _nouns(told, sheet)
        raise SheetRefused(complaints(refused, sheet, RegisterSheet)) from None


def _taken_out(told: dict[str, Any], sheet: Sheet) -> tuple[dict[tuple[str, int], int], list[Complaint]]:
    """Take `received_at` and `pieces` out of every row, and give ids to those that are named by other fields."""
    received: dict[tuple[str, int], int] = {}
    wrong: list[Complaint] = []
    for table, number, row in list(_rows(told)):
        try:
            if "received_at" in row:
                received[table, number] = parse_moment(row.pop("received_at"))
        except ValueError as slip:
            wrong.append(sheet.complain((table, number, "received_at"), str(slip), _WRITE_A_MOMENT))
        heats = row.pop("pieces", {}) if table == "packet" else {}
        if not isinstance(heats, dict):
            wrong.append(sheet.complain((table, number, "pieces"), "members with their heats", _WRITE_PIECES))
            continue
        for piece in _pieces(row.get("frame"), heats):
            pieces = told.setdefault("piece", [])
            if (table, number) in received:
                received["piece", len(pieces)] = received[table, number]
            pieces.append(piece)
        _name(table, row)
    return received, wrong


def _rows(told: dict[str, Any]) -> Iterator[tuple[str, int, dict[str, Any]]]:
    for table, rows in told.items():
        for number, row in enumerate(rows if isinstance(rows, list) else ()):
            if isinstance(row, dict):
                yield table, number, row


def _pieces(frame: Any, heats: dict[str, Any]) -> Iterator[dict[str, Any]]:
    for member, heat in heats.items():
        piece = {"id": f"{frame} {member}", "frame": frame, "member": member}
        yield {**piece, "heat": heat} if heat else piece


def _name(table: str, row: dict[str, Any]) -> None:
    if "id" not in row and table in _NAMED_BY:
        row["id"] = " ".join(str(row.get(field, "")) for field in _NAMED_BY[table])
