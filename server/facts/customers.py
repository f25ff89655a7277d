"""What the record itself knows of a customer: the number, a digest of the details, and that they were removed."""

from typing import Literal

from pydantic import Field

from server.facts.deciding import Signature
from server.facts.entry import Moment
from server.facts.noun import Noun
from server.facts.orders import Customer


class CustomerNumber(Noun):
    """A customer as it is sealed: the number, and what the details that stand beside the record are proved by."""

    kind: Literal["customer number"] = "customer number"
    id: str
    details_hmac_sha256: str = Field(pattern="^[0-9a-f]{64}$", description="keyed by a salt that stands beside them")


class DetailsRemoved(Noun):
    """The details of a customer were removed for good, signed; it tells the number and the reason, never the name."""

    kind: Literal["details removed"] = "details removed"
    id: str
    customer: str
    at: Moment
    reason: str = Field(min_length=3)
    also_typed_in: tuple[str, ...] = Field(default=(), description="ids of lines that hold the name in typed words")
    signatures: tuple[Signature, ...] = Field(min_length=1)


class NamelessCustomer(Customer):
    """A customer of whom the number is left; `name` says why, wherever a name would stand."""

    why: Literal["removed", "altered", "missing"]
    removed_ms: int | None = None
