"""Changes of the customers' details: kept beside their sealed lines, and emptied by the line that removes them."""

from collections.abc import Sequence
from typing import NamedTuple

from sqlalchemy import insert, update

from server.record.tables.columns import DETAILS, DETAILS_TABLE
from server.record.written import Change


class KeptDetails(NamedTuple):
    """One customer's details as told at one position; without them it says which line removed them, and when."""

    position: int
    customer: str
    salt: bytes | None
    details: bytes | None
    removed_by: int | None = None
    removed_ms: int | None = None


def keep_details(told: Sequence[KeptDetails]) -> Change:
    """Keep some details; their sealed lines are appended in the same turn."""
    rows = [each._asdict() for each in told]
    return lambda connection: connection.execute(insert(DETAILS_TABLE), rows)


def empty_details(customer: str, removed_by: int, removed_ms: int) -> Change:
    """Empty every row of a customer; the line at `removed_by` is the one that says so."""
    emptied = {"salt": None, "details": None, "removed_by": removed_by, "removed_ms": removed_ms}
    change = update(DETAILS_TABLE).where(DETAILS.customer == customer, DETAILS.removed_by.is_(None)).values(emptied)
    return lambda connection: connection.execute(change)
