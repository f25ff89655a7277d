"""Suspect sets: the widest stretch, only what used the failed thing, each in or out with its fact."""

from server.occasions.build import Shop
from server.occasions.known import Known
from tests.judgement.barrow_works import registers_with
from tests.judgement.log_language import read_log

BY = {"person": "QUI", "role": "quality lead", "meaning": "narrowed", "shown_sha256": "0"}
SIGNED = [BY | {"at": "2031-03-11T08:00"}]
LOG = """
06:00 pass A1 root purge_line=N-P
07:00 bead N-P good
09:00 pass A1 root attempt=2
10:00 pass B1 fill
11:00 pass A2 root purge_line=S-P
13:05 cylinder N-P on=CY-2 id=change
14:00 pass A3 root
16:00 bead N-P failed id=bad
17:00 pass A4 root
"""


def sets(log: str, *lines):
    told = read_log(log, "2031-03-10", {}, {})
    shared = told.of("bead", "cylinder", "coupon", "check")
    known = Known(registers_with(list(lines), {}), shared, told.clocks, told.of("pass"))
    return list(Shop(known).suspect_sets())


def test_the_widest_set_holds_what_used_the_line_between_good_and_failed():
    """Three joints are in, each by its own pass; before the good bead, after the failed one, on another line: out."""
    (found,) = sets(LOG)
    assert [each.subject for each in found.suspects] == ["X1/A1#2", "X1/A3#1", "X1/B1#1"]
    assert [each.structural for each in found.suspects] == [True, True, False]
    assert all("used N-P" in each.because and each.passes for each in found.suspects)
    reasons = {each.subject: each.because for each in found.left_out}
    assert reasons["X1/A1#1"].startswith("before the last good check")
    assert reasons["X1/A2#1"] == "did not use N-P"
    assert reasons["X1/A4#1"].startswith("after the failed check")


def test_a_narrowing_lets_out_and_says_by_what():
    """The cylinder connected in between leaves one joint in; the others stay readable with the reason they left."""
    narrowing = {"kind": "narrowing", "id": "NA", "check": "bad", "by": "cylinder connected", "fact": "change",
                 "reason": "the other cylinder was good", "signatures": SIGNED}  # fmt: skip
    (found,) = sets(LOG, narrowing)
    assert [each.subject for each in found.still_in] == ["X1/A3#1"]
    assert {each.cleared_by for each in found.suspects if each.subject != "X1/A3#1"} == {"NA"}
    assert {each.cleared_reason for each in found.suspects if each.cleared_by} == {"the other cylinder was good"}


def test_each_suspect_says_where_it_is_now():
    """Made anew: removed; another tube welded over it: covered; the frame gone: shipped; else in work."""
    log = LOG + "2031-03-11 09:00 pass A3 root attempt=2\n"
    (found,) = sets(log)
    where = {each.subject: each.whereabouts for each in found.suspects}
    assert where == {"X1/A1#2": "covered", "X1/A3#1": "removed", "X1/B1#1": "in work"}
    gone = {"kind": "shipment", "id": "S", "frame": "X1", "customer": "C", "at": "2031-03-12T08:00"}
    (found,) = sets(log, gone)
    assert {each.whereabouts for each in found.suspects} == {"removed", "shipped"}


def test_a_coupon_reaches_only_the_procedures_it_qualifies():
    """Under another procedure, or by another hand, a joint is out, and the reason names the procedure."""
    log = """
    07:00 coupon ANN good procedures=TT
    08:00 pass A1 root
    09:00 pass A3 root
    10:00 pass A2 root who=BEN
    2031-03-11 07:00 coupon ANN failed procedures=TT
    """
    (found,) = sets(log)
    assert [each.subject for each in found.suspects] == ["X1/A1#1"]
    reasons = {each.subject: each.because for each in found.left_out}
    assert reasons["X1/A3#1"] == "under TM, which this check does not qualify"
    assert reasons["X1/A2#1"] == "did not use ANN"


def test_a_meter_reaches_what_it_read_and_what_inherited_its_reading():
    """Read by it, or without a reading of its own on a line it last read: in; read by another meter: out."""
    log = """
    08:00 pass A1 root oxygen=8
    09:00 pass B1 fill
    10:00 pass A2 root oxygen=8!read:AN2
    """
    failed = {"kind": "calibration", "id": "CAL", "instrument": "AN", "at": "2031-04-01T08:00", "result": "fail"}
    (found,) = sets(log, failed)
    assert [each.subject for each in found.suspects] == ["X1/A1#1", "X1/B1#1"]


def test_the_counter_of_a_machine_reaches_what_it_counted():
    """A power source found wrong puts in doubt every pass it counted."""
    failed = {"kind": "calibration", "id": "CAL", "instrument": "PS", "at": "2031-04-01T08:00", "result": "fail"}
    (found,) = sets("08:00 pass A1 root mean_current=40", failed)
    assert [each.subject for each in found.suspects] == ["X1/A1#1"]
