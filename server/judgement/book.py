"""The book: its rules in the order a reviewer reads them, and the day whose limits it holds everything against."""

from dataclasses import dataclass
from datetime import date

from server.judgement.rule import Rule
from server.judgement.rules.air_check import air_check
from server.judgement.rules.air_check_due import air_check_due
from server.judgement.rules.arc_strike import arc_strike
from server.judgement.rules.background_current import background_current
from server.judgement.rules.base_metal import base_metal
from server.judgement.rules.calibration_due import calibration_due
from server.judgement.rules.certificate_true import certificate_true
from server.judgement.rules.clean_to_arc import clean_to_arc
from server.judgement.rules.clock import clock
from server.judgement.rules.cold_set import cold_set
from server.judgement.rules.colour_as_welded import colour_as_welded
from server.judgement.rules.concession_left import concession_left
from server.judgement.rules.cool_time import cool_time
from server.judgement.rules.coupon import coupon
from server.judgement.rules.coupon_due import coupon_due
from server.judgement.rules.covered_while_waiting import covered_while_waiting
from server.judgement.rules.cross_check import cross_check
from server.judgement.rules.cross_check_acted_on import cross_check_acted_on
from server.judgement.rules.cross_check_due import cross_check_due
from server.judgement.rules.cup import cup
from server.judgement.rules.cylinder_cut_off import cylinder_cut_off
from server.judgement.rules.cylinder_known import cylinder_known
from server.judgement.rules.dew_point import dew_point
from server.judgement.rules.dew_point_due import dew_point_due
from server.judgement.rules.filler_composition import filler_composition
from server.judgement.rules.filler_lot_released import filler_lot_released
from server.judgement.rules.finished_before_covered import finished_before_covered
from server.judgement.rules.fit_up_gap import fit_up_gap
from server.judgement.rules.frequency import frequency
from server.judgement.rules.fusions import fusions
from server.judgement.rules.gas_as_certified import gas_as_certified
from server.judgement.rules.gas_lot_released import gas_lot_released
from server.judgement.rules.geometry import geometry
from server.judgement.rules.geometry_before_next import geometry_before_next
from server.judgement.rules.heat_composition import heat_composition
from server.judgement.rules.heat_input import heat_input
from server.judgement.rules.heat_sum import heat_sum
from server.judgement.rules.held_by_failed_check import held_by_failed_check
from server.judgement.rules.hold_complete import hold_complete
from server.judgement.rules.identical_readings import identical_readings
from server.judgement.rules.identity_confirmed import identity_confirmed
from server.judgement.rules.inside_colour import inside_colour
from server.judgement.rules.instrument_calibrated import instrument_calibrated
from server.judgement.rules.interpass import interpass
from server.judgement.rules.joint_known import joint_known
from server.judgement.rules.late_entry import late_entry
from server.judgement.rules.leak_test import leak_test
from server.judgement.rules.leak_test_due import leak_test_due
from server.judgement.rules.look_again import look_again
from server.judgement.rules.mean_current import mean_current
from server.judgement.rules.o2_step import o2_step
from server.judgement.rules.on_time import on_time
from server.judgement.rules.one_arc_at_a_time import one_arc_at_a_time
from server.judgement.rules.order_of_work import order_of_work
from server.judgement.rules.order_provable import order_provable
from server.judgement.rules.outside_colour import outside_colour
from server.judgement.rules.peak_current import peak_current
from server.judgement.rules.photo_alike import photo_alike
from server.judgement.rules.photo_own import photo_own
from server.judgement.rules.piece_heat import piece_heat
from server.judgement.rules.post_flow import post_flow
from server.judgement.rules.pre_flow import pre_flow
from server.judgement.rules.pre_purge_flow import pre_purge_flow
from server.judgement.rules.pre_purge_time import pre_purge_time
from server.judgement.rules.pre_purge_volumes import pre_purge_volumes
from server.judgement.rules.procedure_range import procedure_range
from server.judgement.rules.procedure_shown import procedure_shown
from server.judgement.rules.purge_bead import purge_bead
from server.judgement.rules.purge_bead_at_change import purge_bead_at_change
from server.judgement.rules.purge_bead_due import purge_bead_due
from server.judgement.rules.purge_flow import purge_flow
from server.judgement.rules.purge_o2 import purge_o2
from server.judgement.rules.qualification_lapses import qualification_lapses
from server.judgement.rules.reading_fresh import reading_fresh
from server.judgement.rules.reading_possible import reading_possible
from server.judgement.rules.released_before_covered import released_before_covered
from server.judgement.rules.released_by_another import released_by_another
from server.judgement.rules.released_when_finished import released_when_finished
from server.judgement.rules.repair_approved import repair_approved
from server.judgement.rules.repair_count import repair_count
from server.judgement.rules.repair_procedure import repair_procedure
from server.judgement.rules.revision_in_force import revision_in_force
from server.judgement.rules.rod_class import rod_class
from server.judgement.rules.rod_ends_agree import rod_ends_agree
from server.judgement.rules.rod_ends_checked import rod_ends_checked
from server.judgement.rules.rod_size import rod_size
from server.judgement.rules.sleeve_named import sleeve_named
from server.judgement.rules.sleeve_open import sleeve_open
from server.judgement.rules.sleeve_open_long import sleeve_open_long
from server.judgement.rules.tablets_heard import tablets_heard
from server.judgement.rules.tack_colour import tack_colour
from server.judgement.rules.tack_purge import tack_purge
from server.judgement.rules.torch_bead import torch_bead
from server.judgement.rules.torch_bead_at_change import torch_bead_at_change
from server.judgement.rules.torch_bead_due import torch_bead_due
from server.judgement.rules.torch_flow import torch_flow
from server.judgement.rules.trailing_flow import trailing_flow
from server.judgement.rules.travel import travel
from server.judgement.rules.travel_possible import travel_possible
from server.judgement.rules.tungsten import tungsten
from server.judgement.rules.tungsten_type import tungsten_type
from server.judgement.rules.used_after_failed_bead import used_after_failed_bead
from server.judgement.rules.used_after_failed_coupon import used_after_failed_coupon
from server.judgement.rules.volts import volts
from server.judgement.rules.weld_before_bead import weld_before_bead
from server.judgement.rules.welder_qualified import welder_qualified

SECTIONS: tuple[tuple[str, tuple[Rule, ...]], ...] = (
    (
        "Gas",
        (
            gas_lot_released,
            gas_as_certified,
            cylinder_known,
            torch_bead_due,
            torch_bead,
            torch_bead_at_change,
            purge_bead_due,
            purge_bead,
            purge_bead_at_change,
            used_after_failed_bead,
            weld_before_bead,
            cylinder_cut_off,
            o2_step,
            certificate_true,
            leak_test,
            leak_test_due,
            dew_point,
            dew_point_due,
        ),
    ),
    (
        "Instruments",
        (
            instrument_calibrated,
            calibration_due,
            air_check,
            air_check_due,
            cross_check,
            cross_check_acted_on,
            cross_check_due,
            reading_possible,
            identical_readings,
        ),
    ),
    (
        "Rods",
        (
            rod_ends_checked,
            rod_ends_agree,
            sleeve_open_long,
            sleeve_named,
            sleeve_open,
            rod_class,
            rod_size,
            filler_lot_released,
            filler_composition,
        ),
    ),
    (
        "People",
        (
            welder_qualified,
            qualification_lapses,
            coupon,
            coupon_due,
            used_after_failed_coupon,
            one_arc_at_a_time,
        ),
    ),
    (
        "Material and procedure",
        (
            piece_heat,
            heat_composition,
            base_metal,
            procedure_range,
            joint_known,
            revision_in_force,
            procedure_shown,
        ),
    ),
    (
        "Before the arc",
        (
            fit_up_gap,
            clean_to_arc,
            tack_purge,
            tack_colour,
            pre_purge_flow,
            pre_purge_time,
            pre_purge_volumes,
            purge_o2,
            reading_fresh,
            tungsten,
            tungsten_type,
            cup,
            torch_flow,
            trailing_flow,
            purge_flow,
            pre_flow,
            interpass,
        ),
    ),
    (
        "At the arc",
        (
            peak_current,
            background_current,
            on_time,
            frequency,
            mean_current,
            volts,
            travel,
            travel_possible,
            heat_input,
            fusions,
            heat_sum,
            arc_strike,
        ),
    ),
    (
        "After the arc",
        (
            post_flow,
            outside_colour,
            inside_colour,
            colour_as_welded,
            photo_own,
            photo_alike,
        ),
    ),
    (
        "Repairs",
        (
            repair_procedure,
            repair_approved,
            repair_count,
            cool_time,
        ),
    ),
    (
        "Order of work",
        (
            finished_before_covered,
            released_before_covered,
            released_by_another,
            released_when_finished,
            covered_while_waiting,
            order_of_work,
            order_provable,
            geometry_before_next,
            geometry,
            cold_set,
        ),
    ),
    (
        "What failed checks reach, and what was signed",
        (
            held_by_failed_check,
            hold_complete,
            concession_left,
        ),
    ),
    (
        "The record itself",
        (
            clock,
            late_entry,
            identity_confirmed,
            tablets_heard,
            look_again,
        ),
    ),
)
RULES: tuple[Rule, ...] = tuple(rule for _, rules in SECTIONS for rule in rules)

@dataclass(frozen=True, slots=True)
class Book:
    """A rule book; without a day it judges by what was in force then, with one by what is in force on that day."""

    name: str
    rules: tuple[Rule, ...] = RULES
    on: date | None = None


THEN = Book("then")
