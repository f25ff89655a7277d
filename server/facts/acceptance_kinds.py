"""What a figure of the shop's acceptance file may be about; a rule without its figure asks nothing."""

from typing import NamedTuple


class AcceptanceKind(NamedTuple):
    """One kind of figure: what it says, and the unit it is kept in."""

    words: str
    unit: str


ACCEPTANCE_KINDS: dict[str, AcceptanceKind] = {
    "setting_uncertainty": AcceptanceKind("standard uncertainty of a setting read off a panel", "%"),
    "seam_uncertainty": AcceptanceKind("standard uncertainty of a seam length", "mm"),
    "edge_band": AcceptanceKind("width up to which a tinted edge band alone is tolerated", "mm"),
    "gap": AcceptanceKind("widest fit-up gap before the first tack", "mm"),
    "tack_grade": AcceptanceKind("darkest colour of a tack that may stay in", "grade"),
    "tack_purge": AcceptanceKind("tacks are made with purge gas on (1: yes)", "yes"),
    "clean_to_arc": AcceptanceKind("longest time from cleaning to the arc", "h"),
    "reading_age": AcceptanceKind("oldest purge reading a pass may rest on", "min"),
    "sleeve_open": AcceptanceKind("longest time a rod sleeve stays open", "days"),
    "cylinder_cut_off": AcceptanceKind("pressure at which a cylinder comes off", "bar"),
    "gas_dew_point": AcceptanceKind("highest dew point of shielding gas", "°C"),
    "heat_sum": AcceptanceKind("heat of all attempts at one place, in times that of the first", "times"),
    "cross_check": AcceptanceKind("largest difference shown in a cross-check", "ppm"),
    "cross_check_every": AcceptanceKind("weeks between cross-checks", "weeks"),
    "cross_check_opens_a_set": AcceptanceKind("a failed cross-check puts in doubt what was read (1: yes)", "yes"),
    "torch_bead_every": AcceptanceKind("shifts between torch gas beads", "shifts"),
    "torch_bead_at_change": AcceptanceKind("torch gas beads at a cylinder change", "beads"),
    "purge_bead_every": AcceptanceKind("weeks between purge line beads", "weeks"),
    "purge_bead_at_change": AcceptanceKind("purge line beads at a cylinder change", "beads"),
    "air_check_every": AcceptanceKind("shifts between air checks of an analyser", "shifts"),
    "leak_test_every": AcceptanceKind("weeks between leak tests of a gas line", "weeks"),
    "dew_point_every": AcceptanceKind("weeks between dew point readings of a gas line", "weeks"),
    "coupon_every": AcceptanceKind("days a welder's coupon qualifies for", "days"),
    "oxygen_step": AcceptanceKind("step in purge oxygen at a cylinder change, in times the scatter before", "times"),
    "oxygen_step_readings": AcceptanceKind("readings on each side needed to see a step", "readings"),
    "clock_offset": AcceptanceKind("device clock error not worth a note", "s"),
    "late_entry": AcceptanceKind("time after which an entry is late", "min"),
    "alike_bits": AcceptanceKind("bits in which two pictures' looks may differ and still be copies", "bits"),
    "identical_run": AcceptanceKind("readings in a row that may be identical", "readings"),
    "possible_travel": AcceptanceKind("fastest travel a hand can weld", "mm/min"),
    "sample_audit": AcceptanceKind("joints without a finding that are looked at again for each week", "joints"),
    "tablets_heard": AcceptanceKind("a release waits for every tablet that had the frame open (1: yes)", "yes"),
    "lapse_warning": AcceptanceKind("days ahead a lapsing qualification or calibration is told", "days"),
}
