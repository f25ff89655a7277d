"""The log: every kind of entry under one name, so that a line can be read without knowing its kind beforehand."""

from typing import Annotated

from pydantic import Field, TypeAdapter

from server.facts.checking import Bead, Check, Coupon, Geometry, Reading
from server.facts.passage import Correction, Opened, Release, StageReached
from server.facts.supplies import Arrived, CylinderChange, Photo, Problem, Sleeve, Trace
from server.facts.welding import Clean, Gap, Look, Pass, Purge, Removed, Tack

AnyEntry = Annotated[
    Purge | Tack | Pass | Look | Gap | Clean | Removed
    | Bead | Coupon | Check | Geometry | Reading
    | CylinderChange | Sleeve | Problem | Photo | Arrived | Trace
    | Release | StageReached | Opened | Correction,
    Field(discriminator="kind"),
]

LOG_ENTRY: TypeAdapter[AnyEntry] = TypeAdapter(AnyEntry)
