"""Customers, job packets and shipments: which frame is built for whom, to which design, and where it went."""

from datetime import date
from typing import Literal

from server.facts.entry import Moment
from server.facts.noun import Noun


class Customer(Noun):
    """A customer as a shop folder tells it; once in the record, all but the number stands beside the sealed lines."""

    kind: Literal["customer"] = "customer"
    id: str
    name: str
    address: str | None = None
    since: date | None = None
    note: str | None = None


class Packet(Noun):
    """A job packet: one frame by its serial, its design and size, its bench, when it was issued."""

    kind: Literal["packet"] = "packet"
    id: str
    frame: str
    design: str
    size: str
    bench: str | None = None
    customer: str | None = None
    issued: Moment
    before_the_record: bool = False
    note: str | None = None


class Shipment(Noun):
    """A shipment of one frame to one customer."""

    kind: Literal["shipment"] = "shipment"
    id: str
    frame: str
    customer: str
    at: Moment
    packed_by: str | None = None
    weight_kg: str | None = None


class Ownership(Noun):
    """Who owns a frame from a day on, and how the shop came to know."""

    kind: Literal["ownership"] = "ownership"
    id: str
    frame: str
    customer: str
    since: date
    told_by: str | None = None
