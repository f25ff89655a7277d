"""A register line: any noun of the shop folder or any signed paper, told to the record as one canonical line."""

from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from server.facts.certificate_file import CertificateFile
from server.facts.change_table import ChangeTable
from server.facts.claim import Claim, ClaimStep
from server.facts.containment import Containment, ContainmentStep
from server.facts.continuing import Continuation
from server.facts.coupon_range import RangeTable
from server.facts.customers import CustomerNumber, DetailsRemoved
from server.facts.deciding import Concession, Decision, Narrowing, Nonconformity, Permission, Signature, StandIn
from server.facts.door import DoorChange
from server.facts.equipment import Acceptance, Bench, Calibration, Instrument, Window
from server.facts.legal_hold import LegalHold
from server.facts.materials import Analysis, CompositionLimits, FillerLot, FillLot, Piece, RodSleeve, TubeHeat
from server.facts.noun import Noun
from server.facts.orders import Customer, Ownership, Packet, Shipment
from server.facts.people import Confirmation, Person, Qualification
from server.facts.second_look import SampleDraw, SecondLook
from server.facts.shop import Shop


class ReleasedText(Noun):
    """A written procedure or a design as released: the whole text of its file and its digest."""

    kind: Literal["procedure", "design"]
    id: str
    file: str
    sha256: str
    text: str
    released_by: str | None = None
    signature: Signature | None = Field(default=None, description="over the digest, where it was released on a screen")


AnyRegisterLine = Annotated[
    Shop | ReleasedText | Person | Qualification | Confirmation | RangeTable | ChangeTable
    | Bench | Instrument | Calibration | Window | Acceptance
    | FillerLot | RodSleeve | FillLot | Analysis | TubeHeat | CompositionLimits | Piece
    | Packet | Customer | CustomerNumber | DetailsRemoved | Shipment | Ownership
    | StandIn | Decision | Permission | Concession | Nonconformity | Narrowing
    | SampleDraw | SecondLook | CertificateFile
    | Continuation | Claim | ClaimStep | DoorChange
    | Containment | ContainmentStep | LegalHold,
    Field(discriminator="kind"),
]

REGISTER_LINE: TypeAdapter[AnyRegisterLine] = TypeAdapter(AnyRegisterLine)
