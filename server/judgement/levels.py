"""Which kind of occasion the rules of each level are put to."""

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
from server.judgement.rule import Level

LEVELS: dict[Level, type] = {
    "pass": PassOccasion,
    "tack": TackOccasion,
    "joint": JointOccasion,
    "frame": FrameOccasion,
    "signed": SignedOccasion,
    "bead": BeadOccasion,
    "change": ChangeOccasion,
    "cylinder": CylinderOccasion,
    "line check": LineCheckOccasion,
    "due": DueOccasion,
    "check": CheckOccasion,
    "calibration": CalibrationOccasion,
    "instrument": InstrumentOccasion,
    "coupon": CouponOccasion,
    "welder": WelderOccasion,
    "sleeve": SleeveOccasion,
    "material": MaterialOccasion,
    "tablet": TabletOccasion,
    "nonconformity": NonconformityOccasion,
    "concession": ConcessionOccasion,
}
