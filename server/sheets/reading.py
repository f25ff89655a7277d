"""A TOML text held against the model of what it should say, with every complaint at once."""

import difflib
import inspect
from collections.abc import Iterator
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from server.sheets.complaint import Complaint, SheetRefused
from server.sheets.sheet import Sheet

M = TypeVar("M", bound=BaseModel)
_KINDS = {
    "float_type": ("a number", "Write it without quotes, as 8.5."),
    "int_type": ("a whole number", "Write it without quotes, as 3."),
    "string_type": ("text", "Write it in quotes."),
    "bool_type": ("true or false", "Write true or false without quotes."),
    "date_type": ("a day", "Write it without quotes, as 2025-05-05."),
    "finite_number": ("a finite number", "Write a number."),
    "too_short": ("at least one entry", "Add one."),
    "string_too_short": ("some words", "Write what it is."),
}


def read_as(model: type[M], text: str, file: str) -> tuple[M, Sheet]:
    """Read a TOML text as a model; raises SheetRefused with file, line, field, value and what is expected."""
    sheet = Sheet(text, file)
    try:
        return model.model_validate(sheet.values), sheet
    except ValidationError as refused:
        raise SheetRefused(complaints(refused, sheet, model)) from None


def complaints(refused: ValidationError, sheet: Sheet, model: type[BaseModel]) -> list[Complaint]:
    """Every error of a model's reading as a complaint with its line."""
    return [_complaint(error, sheet, model) for error in refused.errors(include_url=False)]


def _complaint(error: ErrorDetails, sheet: Sheet, model: type[BaseModel]) -> Complaint:
    path, kind = error["loc"], error["type"]
    if kind == "missing":
        field = _field(model, path)
        expected = (field.description if field else None) or "a value"
        return sheet.complain(path, expected, f"Add {path[-1]} = ... there.")
    if kind == "extra_forbidden":
        return _stray(path, sheet, model)
    if kind == "value_error":
        words = str(error["msg"]).removeprefix("Value error, ")
        return sheet.complain(path, words, "Change it so.")
    expected, instead = _KINDS.get(kind, (_plain(str(error["msg"])), "Change it so."))
    return sheet.complain(path, expected, instead, value=error["input"])


def _stray(path: tuple[int | str, ...], sheet: Sheet, model: type[BaseModel]) -> Complaint:
    known = [name for around in _models(model, path[:-1]) for name in around.model_fields]
    near = difflib.get_close_matches(str(path[-1]), known, n=1)
    instead = f"Write {near[0]} if you meant that." if near else "Take the line out."
    return sheet.complain(path, f"one of {', '.join(known)}", instead)


def _plain(message: str) -> str:
    return message.removeprefix("Input should be ").removeprefix("a valid ")


def _field(model: type[BaseModel], path: tuple[int | str, ...]) -> FieldInfo | None:
    fields = (around.model_fields.get(str(path[-1])) for around in _models(model, path[:-1]))
    return next(filter(None, fields), None)


def _models(model: type[BaseModel], path: tuple[int | str, ...]) -> list[type[BaseModel]]:
    around = [model]
    for part in path:
        fields = (m.model_fields.get(str(part)) for m in around)
        stepped = [inner for field in fields if field for inner in _named_in(field.annotation)]
        around = stepped or around
    return around


def _named_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if inspect.isclass(annotation) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _named_in(inner)
