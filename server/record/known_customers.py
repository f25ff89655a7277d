"""Joins what is sealed of a customer with the details beside it, and says in words where there are none that hold."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

from server.evidence.salted import fits
from server.facts.customers import CustomerNumber, DetailsRemoved, NamelessCustomer
from server.facts.orders import Customer
from server.record.keeping_details import KeptDetails
from server.record.stored_rows import in_bytes

_LOOK = "see check-record"


def known_customer(sealed: CustomerNumber, kept: KeptDetails | None, zone: str) -> Customer:
    """Give a customer as known by the sealed line and the details beside it."""
    if kept is None:
        return NamelessCustomer(id=sealed.id, name=f"details missing: {_LOOK}", why="missing")
    if kept.removed_ms is not None:
        return _removed(sealed.id, kept.removed_ms, zone)
    salt, details = in_bytes(kept.salt), in_bytes(kept.details)
    if not fits(details, salt, sealed.details_hmac_sha256):
        return NamelessCustomer(id=sealed.id, name=f"details altered: {_LOOK}", why="altered")
    return Customer(id=sealed.id, **json.loads(details))


def removed_customer(removal: DetailsRemoved, zone: str) -> Customer:
    """Give a customer whose details were removed."""
    return _removed(removal.customer, removal.at, zone)


def without_removed(
    customers: Mapping[str, Customer], removals: Mapping[str, DetailsRemoved], zone: str
) -> dict[str, Customer]:
    """Give the same customers without the details of those that were removed since."""
    gone = {name: removed_customer(removals[name], zone) for name in customers if name in removals}
    return {**customers, **gone}


def _removed(customer: str, removed_ms: int, zone: str) -> Customer:
    day = datetime.fromtimestamp(removed_ms / 1000, UTC).astimezone(ZoneInfo(zone))
    words = f"details removed on {day:%-d %B %Y} at the customer's request"
    return NamelessCustomer(id=customer, name=words, why="removed", removed_ms=removed_ms)


Registering = dict[str, Any]
"""The registers while they are carried on, by the names of their fields."""


def tell_customer(registers: Registering, noun: CustomerNumber, kept: KeptDetails | None) -> None:
    """Put a customer into the registers."""
    registers["customers"][noun.id] = known_customer(noun, kept, _zone(registers))


def tell_removal(registers: Registering, noun: DetailsRemoved) -> None:
    """Take a customer's details out of the registers."""
    registers["customer_removals"][noun.customer] = noun
    registers["customers"][noun.customer] = removed_customer(noun, _zone(registers))


def _zone(registers: Registering) -> str:
    shop = registers["shop"]
    return str(shop.zone) if shop else "UTC"
