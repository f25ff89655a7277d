"""The shop as a whole: the same facts in any order, and facts that share nothing, change no verdict."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from server.judgement.book import THEN
from server.judgement.judge import judge_all
from server.occasions.build import Shop
from server.occasions.known import Known
from tests.judgement.barrow_works import registers_with
from tests.judgement.log_language import read_log

REGISTERS = registers_with(
    [
        {"kind": "packet", "id": "PK-2", "frame": "X2", "design": "barrow", "size": "M", "issued": "2031-03-01T08:00"},
        {"kind": "calibration", "id": "CAL-1", "instrument": "AN", "at": "2031-04-15T08:00", "result": "fail"},
    ],
    {},
)
OWN = """
07:00 cylinder N-P on=CY-1
07:10 bead N-P good
07:20 sleeve S-10 opened rod_ends=RX-9
07:40 bead N-T good
08:00 gap A1 gap=0.2
08:10 tack A1 colour=1
08:40 geometry G1 good deviation=0.2
08:50 purge P1 N-P on pre_purge_flow=5
09:00 pass A1 root oxygen=8 mean_current=40 volts=8.1 arc_on=75 card=TT.A
09:10 pass A1 fill oxygen=70 mean_current=29.5 volts=10 arc_on=75 sleeve=S-10 tapped=11:00 id=fill1
09:20 look A1 inside 1
09:25 look A1 outside 3 q3
09:30 photo A1 aaaa looks_like=ff00ff00ff00ff00
10:00 pass A2 root oxygen=8 device=TAB2
10:30 tack A4
10:40 release A1 who=QUI
12:00 pass A1 repair q3 attempt=2 oxygen=8
13:00 coupon ANN waiting id=test
14:00 coupon ANN failed of=test
16:00 bead N-P failed
16:10 correction fill1 interpass=40
"""
OTHER = """
07:00 cylinder S-P on=CY-3
09:00 pass A1 root frame=X2 who=BEN torch_line=S-T purge_line=S-P oxygen=99!read:AN2 machine=PS2 device=TAB9
09:30 pass A1 fill frame=X2 who=BEN torch_line=S-T purge_line=S-P sleeve=S-20 machine=PS2 device=TAB9
09:40 photo A1 bbbb frame=X2 device=TAB9 looks_like=0123456789abcdef
15:00 bead S-P failed device=TAB9
15:10 check cross AN2 good against=AN3 oxygen=0 other.oxygen=50 device=TAB9
15:20 sleeve S-20 opened rod_ends=RX-2 device=TAB9
"""
SHARED = ("bead", "coupon", "check", "cylinder", "sleeve", "trace", "correction")


def verdicts(log: str, order: list[int] | None = None, frame: str | None = "X1"):
    """Judge a log, its entries handed over in another order than they came; positions stay with their entries."""
    told = read_log(log, "2031-03-10", {}, {})
    entries = told.entries if order is None else [told.entries[place] for place in order]
    pairs = told.clocks if order is None else [told.clocks[place] for place in order]
    of = lambda *kinds: [each for each in entries if each.entry.kind in kinds]  # noqa: E731
    shop = Shop(Known(REGISTERS, of(*SHARED), pairs, of("pass"), of("photo")))
    own = [each for each in entries if getattr(each.entry, "frame", None) == frame]
    occasions = shop.frame(REGISTERS.packets["X1"], own)
    return {(each.subject, each.question): each for each in judge_all([*occasions, *shop.shared()], THEN)}


COUNT = len(read_log(OWN, "2031-03-10", {}, {}).entries)


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(st.permutations(range(COUNT)))
def test_the_order_in_which_entries_are_handed_over_changes_no_verdict(order: list[int]):
    """Whatever order the record gives its entries in, every verdict is the same, word for word."""
    assert verdicts(OWN, order) == verdicts(OWN)


def test_entries_that_share_nothing_with_a_frame_change_none_of_its_verdicts():
    """Another frame on other lines, by another hand, meter, sleeve and machine: this frame's verdicts stay."""
    mine = {key: each for key, each in verdicts(OWN).items() if key[0].startswith("X1")}
    both = {key: each for key, each in verdicts(OWN + OTHER).items() if key[0].startswith("X1")}
    assert both == mine


def test_a_frame_told_twice_over_gives_the_same_verdicts_twice():
    """Building a second shop from the same facts gives the same verdicts: nothing is kept between two."""
    assert verdicts(OWN) == verdicts(OWN)


def test_every_word_occurs_so_the_proofs_above_say_something():
    """The log they rest on gives all five words."""
    assert len({each.word for each in verdicts(OWN).values()}) == 5
