"""What the pages of customers show: all of them, and one with what holds the details or may still hold them."""

from dataclasses import dataclass

from server.work.customer_sheet import CustomerSheet


@dataclass(frozen=True, slots=True)
class CustomersPage:
    """Every customer by number."""

    sheets: tuple[CustomerSheet, ...]


@dataclass(frozen=True, slots=True)
class CustomerPage:
    """One customer, the reason as it was typed, what went wrong, and what may still hold removed details."""

    sheet: CustomerSheet
    reason: str
    problems: tuple[str, ...]
    still_holds: tuple[str, ...]
    done: bool
