"""What a verb hands to the writer: lines to append, changes beside them, and the answer to give once both are kept."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeAlias, TypeVar

from sqlalchemy import Connection

from server.record.lines import NewLine, Placed

Answer = TypeVar("Answer")

Change: TypeAlias = Callable[[Connection], object]
"""A change of a derived or door table, made by a function of this room so that no other room speaks SQL."""


@dataclass(frozen=True, slots=True)
class Written(Generic[Answer]):
    """Appends `lines`, then makes `changes`, all or none; `answer` is told where the lines were placed."""

    answer: Callable[[tuple[Placed, ...]], Answer]
    lines: Sequence[NewLine] = ()
    changes: Sequence[Change] = ()
