"""The registers as known at one record position: every noun the shop keeps by name, the last one told winning."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from server.facts.certificate_file import CertificateFile
from server.facts.change_table import ChangeTable
from server.facts.claim import Claim, ClaimStep
from server.facts.containment import Containment, ContainmentStep
from server.facts.continuing import Continuation
from server.facts.coupon_range import RangeTable
from server.facts.customers import DetailsRemoved
from server.facts.deciding import Concession, Decision, Narrowing, Nonconformity, Permission, StandIn
from server.facts.design import Design
from server.facts.door import DoorChange
from server.facts.equipment import Acceptance, Bench, Calibration, Instrument, Window
from server.facts.legal_hold import LegalHold
from server.facts.materials import Analysis, CompositionLimits, FillerLot, FillLot, Piece, RodSleeve, TubeHeat
from server.facts.orders import Customer, Ownership, Packet, Shipment
from server.facts.people import Confirmation, Person, Qualification
from server.facts.procedure import Procedure
from server.facts.second_look import SampleDraw, SecondLook
from server.facts.shop import Shop


@dataclass(frozen=True, slots=True)
class Registers:
    """All registers by id; `procedures` by (name, revision), `packets` by frame, `customer_removals` by customer.

    `known_at` is the record position.
    """

    known_at: int = 0
    shop: Shop | None = None
    people: Mapping[str, Person] = field(default_factory=dict)
    qualifications: Mapping[str, Qualification] = field(default_factory=dict)
    confirmations: Mapping[str, Confirmation] = field(default_factory=dict)
    change_tables: Mapping[str, ChangeTable] = field(default_factory=dict)
    range_tables: Mapping[str, RangeTable] = field(default_factory=dict)
    benches: Mapping[str, Bench] = field(default_factory=dict)
    instruments: Mapping[str, Instrument] = field(default_factory=dict)
    calibrations: Mapping[str, Calibration] = field(default_factory=dict)
    windows: Mapping[str, Window] = field(default_factory=dict)
    acceptance: Mapping[str, Acceptance] = field(default_factory=dict)
    filler_lots: Mapping[str, FillerLot] = field(default_factory=dict)
    sleeves: Mapping[str, RodSleeve] = field(default_factory=dict)
    fill_lots: Mapping[str, FillLot] = field(default_factory=dict)
    analyses: Mapping[str, Analysis] = field(default_factory=dict)
    heats: Mapping[str, TubeHeat] = field(default_factory=dict)
    compositions: Mapping[str, CompositionLimits] = field(default_factory=dict)
    pieces: Mapping[str, Piece] = field(default_factory=dict)
    designs: Mapping[str, Design] = field(default_factory=dict)
    procedures: Mapping[tuple[str, str], Procedure] = field(default_factory=dict)
    packets: Mapping[str, Packet] = field(default_factory=dict)
    customers: Mapping[str, Customer] = field(default_factory=dict)
    customer_removals: Mapping[str, DetailsRemoved] = field(default_factory=dict)
    shipments: Mapping[str, Shipment] = field(default_factory=dict)
    ownerships: Mapping[str, Ownership] = field(default_factory=dict)
    stand_ins: Mapping[str, StandIn] = field(default_factory=dict)
    decisions: Mapping[str, Decision] = field(default_factory=dict)
    permissions: Mapping[str, Permission] = field(default_factory=dict)
    concessions: Mapping[str, Concession] = field(default_factory=dict)
    nonconformities: Mapping[str, Nonconformity] = field(default_factory=dict)
    narrowings: Mapping[str, Narrowing] = field(default_factory=dict)
    sample_draws: Mapping[str, SampleDraw] = field(default_factory=dict)
    second_looks: Mapping[str, SecondLook] = field(default_factory=dict)
    certificate_files: Mapping[str, CertificateFile] = field(default_factory=dict)
    continuations: Mapping[str, Continuation] = field(default_factory=dict)
    claims: Mapping[str, Claim] = field(default_factory=dict)
    claim_steps: Mapping[str, ClaimStep] = field(default_factory=dict)
    door_changes: Mapping[str, DoorChange] = field(default_factory=dict)
    containments: Mapping[str, Containment] = field(default_factory=dict)
    containment_steps: Mapping[str, ContainmentStep] = field(default_factory=dict)
    legal_holds: Mapping[str, LegalHold] = field(default_factory=dict)
    positions: Mapping[str, int] = field(default_factory=dict)
    """Record position at which a noun became known, by `kind:id`."""
    looked_up: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)
    """What was gathered from these registers once (`frame_papers`), for as long as nothing more is told."""

    @property
    def zone(self) -> str:
        """The shop's time zone; UTC while no shop is told."""
        return self.shop.zone if self.shop else "UTC"
