"""A text held against a model: several complaints at once, each with its line."""

from datetime import date
from typing import Annotated

import pytest
from pydantic import BaseModel, ConfigDict, Field, Strict

from server.sheets.complaint import Complaint, SheetRefused
from server.sheets.reading import read_as


class Rod(BaseModel):
    """A rod for these proofs."""

    model_config = ConfigDict(extra="forbid")
    diameter: Annotated[float, Strict()] = Field(description="the rod's diameter, such as 1.1")
    received: Annotated[date, Strict()] | None = None


class Box(BaseModel):
    """A box of rods."""

    model_config = ConfigDict(extra="forbid")
    name: str = Field(min_length=1)
    rods: list[Rod] = []


def complaints(text: str) -> tuple[Complaint, ...]:
    with pytest.raises(SheetRefused) as refused:
        read_as(Box, text, "box.toml")
    return refused.value.complaints


def test_a_good_text_is_read() -> None:
    """A text that says what the model asks for becomes the model."""
    box, sheet = read_as(Box, 'name = "A"\n[[rods]]\ndiameter = 1\nreceived = 2025-01-06\n', "box.toml")
    assert box.rods[0].diameter == 1.0
    assert box.rods[0].received == date(2025, 1, 6)
    assert sheet.line(("rods", 0, "diameter")) == 3


def test_everything_wrong_is_said_at_once_in_the_order_of_the_lines() -> None:
    """Three slips give three complaints, first line first."""
    found = complaints('name = 7\n[[rods]]\ndiameter = "0.9"\n[[rods]]\n')
    assert [c.line for c in found] == [1, 3, 4]
    assert [c.field for c in found] == ["name", "rods[1].diameter", "rods[2].diameter"]


def test_a_number_in_quotes_is_refused() -> None:
    """Text where a number is wanted is named, with how to write it."""
    (found,) = complaints('name = "A"\n[[rods]]\ndiameter = "0.9"\n')
    assert (found.value, found.expected) == ("'0.9'", "a number")
    assert "without quotes" in found.instead


def test_what_is_missing_says_what_it_would_be() -> None:
    """A missing field is described in the words of the model, on the line of its table."""
    (found,) = complaints('name = "A"\n[[rods]]\nreceived = 2025-01-06\n')
    assert (found.line, found.value) == (2, "missing")
    assert found.expected == "the rod's diameter, such as 1.1"
    assert "diameter" in found.instead


def test_a_slip_of_the_pen_gets_the_nearest_name() -> None:
    """An unknown field is answered with the field that was probably meant."""
    found = complaints('name = "A"\n[[rods]]\ndiametre = 0.9\n')
    stray = next(c for c in found if c.field == "rods[1].diametre")
    assert stray.instead == "Write diameter if you meant that."
    assert "received" in stray.expected


def test_a_day_in_quotes_is_refused() -> None:
    """A day is written as TOML writes days."""
    (found,) = complaints('name = "A"\n[[rods]]\ndiameter = 1\nreceived = "6 Jan"\n')
    assert found.expected == "a day"
    assert "2025-05-05" in found.instead
