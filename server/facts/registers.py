"""The registers as known at one record position: every noun the shop keeps by name, the last one told winning."""

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
    people: dict[str, Person] = field(default_factory=dict)
    qualifications: dict[str, Qualification] = field(default_factory=dict)
    confirmations: dict[str, Confirmation] = field(default_factory=dict)
    change_tables: dict[str, ChangeTable] = field(default_factory=dict)
    range_tables: dict[str, RangeTable] = field(default_factory=dict)
    benches: dict[str, Bench] = field(default_factory=dict)
    instruments: dict[str, Instrument] = field(default_factory=dict)
    calibrations: dict[str, Calibration] = field(default_factory=dict)
    windows: dict[str, Window] = field(default_factory=dict)
    acceptance: dict[str, Acceptance] = field(default_factory=dict)
    filler_lots: dict[str, FillerLot] = field(default_factory=dict)
    sleeves: dict[str, RodSleeve] = field(default_factory=dict)
    fill_lots: dict[str, FillLot] = field(default_factory=dict)
    analyses: dict[str, Analysis] = field(default_factory=dict)
    heats: dict[str, TubeHeat] = field(default_factory=dict)
    compositions: dict[str, CompositionLimits] = field(default_factory=dict)
    pieces: dict[str, Piece] = field(default_factory=dict)
    designs: dict[str, Design] = field(default_factory=dict)
    procedures: dict[tuple[str, str], Procedure] = field(default_factory=dict)
    packets: dict[str, Packet] = field(default_factory=dict)
    customers: dict[str, Customer] = field(default_factory=dict)
    customer_removals: dict[str, DetailsRemoved] = field(default_factory=dict)
    shipments: dict[str, Shipment] = field(default_factory=dict)
    ownerships: dict[str, Ownership] = field(default_factory=dict)
    stand_ins: dict[str, StandIn] = field(default_factory=dict)
    decisions: dict[str, Decision] = field(default_factory=dict)
    permissions: dict[str, Permission] = field(default_factory=dict)
    concessions: dict[str, Concession] = field(default_factory=dict)
    nonconformities: dict[str, Nonconformity] = field(default_factory=dict)
    narrowings: dict[str, Narrowing] = field(default_factory=dict)
    sample_draws: dict[str, SampleDraw] = field(default_factory=dict)
    second_looks: dict[str, SecondLook] = field(default_factory=dict)
    certificate_files: dict[str, CertificateFile] = field(default_factory=dict)
    continuations: dict[str, Continuation] = field(default_factory=dict)
    claims: dict[str, Claim] = field(default_factory=dict)
    claim_steps: dict[str, ClaimStep] = field(default_factory=dict)
    door_changes: dict[str, DoorChange] = field(default_factory=dict)
    containments: dict[str, Containment] = field(default_factory=dict)
    containment_steps: dict[str, ContainmentStep] = field(default_factory=dict)
    legal_holds: dict[str, LegalHold] = field(default_factory=dict)
    positions: dict[str, int] = field(default_factory=dict)
    """Record position at which a noun became known, by `kind:id`."""
    looked_up: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)
    """What was gathered from these registers once (`frame_papers`), for as long as nothing more is told."""

    @property
    def zone(self) -> str:
        """The shop's time zone; UTC while no shop is told."""
        return self.shop.zone if self.shop else "UTC"
