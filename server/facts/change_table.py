"""Which change of a procedure wants a new supporting record: a code's rows of essential variables, with edition."""

from typing import Literal

from pydantic import Field, model_validator

from server.facts.noun import Noun

Needs = Literal["new record", "no new record", "does not apply"]
GROUP, WELD = "metal group", "kind of weld"
"""The variables that say which rows are for a procedure."""


class ChangeRow(Noun):
    """One row: the variable, which change of it the row is about, for which metals and welds, what it then needs.

    A row with `lowered_by`, `raised_by` or `lowered_percent` is about a limit of the procedure, by its name there.
    """

    clause: str
    variable: str
    change: tuple[Literal["added", "dropped", "changed"], ...] = ("added", "dropped", "changed")
    lowered_by: float | None = Field(default=None, gt=0, description="in the limit's unit, from this much on")
    raised_by: float | None = Field(default=None, gt=0, description="in the limit's unit, from this much on")
    lowered_percent: float | None = Field(default=None, gt=0, le=100, description="share of the old low end")
    groups: tuple[str, ...] = Field(default=(), description="metal groups it is for; left out: any")
    welds: tuple[str, ...] = Field(default=(), description="kinds of weld it is for; left out: any")
    needs: Needs = "new record"
    source: str = Field(description="how the row is known")

    @model_validator(mode="after")
    def _one_step(self) -> "ChangeRow":
        if sum(each is not None for each in (self.lowered_by, self.raised_by, self.lowered_percent)) > 1:
            raise ValueError("write one of lowered_by, raised_by and lowered_percent; a second row may hold the other")
        return self

    @property
    def of_a_limit(self) -> bool:
        """Tell whether the row is about how far a limit moves."""
        return any(each is not None for each in (self.lowered_by, self.raised_by, self.lowered_percent))


class ChangeTable(Noun):
    """A code's essential variables, with edition; a shop types them in from its own copy, and its own stands first."""

    kind: Literal["change table"] = "change table"
    id: str = Field(description="the name the records give in `changes_by`, with code and clause")
    edition: str
    rows: tuple[ChangeRow, ...] = Field(min_length=1)
