"""Everything that can be judged: one union of the occasions."""

from server.facts.occasion_frame import FrameOccasion, SignedOccasion
from server.facts.occasion_instrument import CalibrationOccasion, CheckOccasion, InstrumentOccasion
from server.facts.occasion_joint import JointOccasion
from server.facts.occasion_line import BeadOccasion, ChangeOccasion, CylinderOccasion, DueOccasion, LineCheckOccasion
from server.facts.occasion_material import MaterialOccasion
from server.facts.occasion_paper import ConcessionOccasion, NonconformityOccasion
from server.facts.occasion_pass import PassOccasion, TackOccasion
from server.facts.occasion_people import CouponOccasion, WelderOccasion
from server.facts.occasion_sleeve import SleeveOccasion
from server.facts.occasion_tablet import TabletOccasion

Occasion = (
    PassOccasion | TackOccasion | JointOccasion | FrameOccasion | SignedOccasion
    | BeadOccasion | ChangeOccasion | CylinderOccasion | LineCheckOccasion | DueOccasion
    | CheckOccasion | CalibrationOccasion | InstrumentOccasion
    | CouponOccasion | WelderOccasion | SleeveOccasion | MaterialOccasion | TabletOccasion
    | NonconformityOccasion | ConcessionOccasion
)
