"""Whether a line's bytes hold some words, asked of the database so that what does not is never handed over."""

from collections.abc import Iterable

from sqlalchemy import ColumnElement, LargeBinary, false, func, literal, or_

from server.record.tables.columns import LINE


def holds_any(engine: str, words: Iterable[bytes]) -> ColumnElement[bool]:
    """Say that the body holds any of these, in the speech of the engine named."""
    place = func.instr if engine == "sqlite" else _place_of
    return or_(false(), *(place(LINE.body, literal(each, LargeBinary)) > 0 for each in words))


def _place_of(body: ColumnElement[bytes], words: ColumnElement[bytes]) -> ColumnElement[int]:
    return func.position(words.op("IN")(body))
