"""The book: its rules in the order a reviewer reads them, and the day whose limits it holds everything against."""

from dataclasses import dataclass
from datetime import date

from server.judgement.rule import Rule

RULES: tuple[Rule, ...] = ()


@dataclass(frozen=True, slots=True)
class Book:
    """A rule book; without a day it judges by what was in force then, with one by what is in force on that day."""

    name: str
    rules: tuple[Rule, ...] = RULES
    on: date | None = None


THEN = Book("then")
