"""What was declared when a restored copy of the record went on."""

from typing import Literal

from pydantic import Field

from server.facts.noun import Noun


class Continuation(Noun):
    """A restored copy goes on: from which line, what was known outside by then, and who declared it.

    `lines_lost` is how many lines a checkpoint held outside covers beyond the copy; `former_name` is the name the
    record was signed under before, where it had to take another so that no name signs two histories.
    """

    kind: Literal["continuation"] = "continuation"
    id: str
    copied: str = Field(description="when the copy was made")
    lines: int = Field(ge=0, description="lines the copy held when it went on")
    known_outside: tuple[str, ...] = Field(default=(), description="the checkpoints shown, as they were signed")
    statement: str = Field(min_length=3)
    told_by: str = Field(min_length=1)
    lines_lost: int | None = Field(default=None, ge=1)
    former_name: str | None = None
