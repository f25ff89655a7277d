"""Verdicts do not hang on the order of processing, nor on work that shares nothing with a frame."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from hypothesis import given, settings
from hypothesis import strategies as st

from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.judgement.book import THEN
from server.judgement.judge import judge_all
from server.occasions.build import Shop
from server.occasions.known import Known
from tests.judgement.barrow_works import registers_with
from tests.judgement.case_page import SHARED
from tests.judgement.log_language import read_log

DAY = "2031-03-10"
OWN = """
06:50 bead N-T good
06:55 coupon ANN good
07:00 bead N-P good
07:05 check air AN good
07:10 sleeve S-10 opened rod_ends=RX-9
07:30 clean A1
07:35 gap A1 gap=0.4
07:40 tack A1 colour=1
08:00 pass A1 root oxygen=9 mean_current=41 volts=10 arc_on=80
08:30 pass A1 fill oxygen=34 mean_current=44 volts=10 arc_on=75 id=fill
08:40 look A1 inside 3
08:45 look A1 outside 1
09:00 cylinder N-P on=CY-2
09:10 pass A2 root q12 q3 oxygen=14 device=PAD
09:20 tack A3 device=PAD
09:25 pass A3 root oxygen=41 device=PAD arrives=15:00
09:30 release A1 who=QUI device=PAD
10:00 bead N-P failed id=bad
10:20 correction fill oxygen=9 reason=misread
10:25 correction fill sleeve=S-30 run=wash reason=slip device=PAD
10:26 correction fill sleeve=S-10 reason=slip
10:30 removed A2 device=PAD
10:40 pass A2 root attempt=2 oxygen=9
11:00 pass B1 fill oxygen=9 sleeve=S-30
11:10 photo A1 one who=ANN
11:15 photo A2 one who=ANN
"""
STRANGE = """
06:40 bead S-T failed who=CEL device=FAR
07:02 bead S-P failed who=CEL device=FAR
07:12 sleeve S-20 opened who=CEL device=FAR
07:50 tack A1 frame=X2 purge_line=S-P torch_line=S-T who=CEL device=FAR
08:05 pass A1 root frame=X2 oxygen=300!read:XN purge_line=S-P torch_line=S-T machine=XS who=CEL device=FAR
08:35 pass A1 fill frame=X2 oxygen=90!read:XN purge_line=S-P torch_line=S-T machine=XS sleeve=S-20 who=CEL device=FAR
08:42 look A1 inside 7 frame=X2 who=CEL device=FAR
09:05 cylinder S-P on=CY-9 who=CEL device=FAR
09:15 pass A2 root frame=X2 purge_line=S-P torch_line=S-T machine=XS who=CEL device=FAR arrives=16:00
09:35 check air XN failed who=CEL device=FAR
10:10 bead S-P good who=CEL device=FAR
10:15 coupon CEL failed who=CEL device=FAR
11:12 photo A1 other frame=X2 who=CEL device=FAR
11:30 sleeve S-20 checked rod_ends=RX-2 who=CEL device=FAR
"""
LINES: list[dict[str, Any]] = [
    {"kind": "packet", "id": "PK-2", "frame": "X2", "design": "barrow", "size": "M", "issued": "2031-03-01T08:00"},
    {"kind": "person", "id": "CEL", "name": "Cel", "roles": ["welder"]},
    {"kind": "bench", "id": "SOUTH", "title": "south bench", "torch_line": "S-T", "purge_line": "S-P", "machine": "XS",
     "devices": ["FAR"]},
]  # fmt: skip
SHOP = registers_with(LINES, {})


class Sent(NamedTuple):
    """One delivery: its entry as received, and what it tells of its device's clock."""

    recorded: Recorded
    clock: ClockPair


def sent(log: str) -> list[Sent]:
    told = read_log(log, DAY, {"PAD": 120}, {})
    return [Sent(*pair) for pair in zip(told.entries, told.clocks, strict=True)]


OF_X1, OF_X2 = sent(OWN), sent(STRANGE)
Verdicts = dict[str, tuple[object, ...]]


def verdicts(processed: Sequence[Sent], frame: str | None = None) -> Verdicts:
    """Judge what was processed in this order: everything, or one frame."""
    entries = [each.recorded._replace(position=at) for at, each in enumerate(processed, 1)]
    shared, passes, photos = (_of(entries, *kinds) for kinds in (SHARED, ("pass",), ("photo",)))
    shop = Shop(Known(SHOP, shared, [each.clock for each in processed], passes, photos))
    packets = [packet for packet in SHOP.packets.values() if frame in (None, packet.frame)]
    occasions = [found for packet in packets for found in shop.frame(packet, _about(entries, packet.frame))]
    told = judge_all([*occasions, *(shop.shared() if frame is None else ())], THEN)
    return {each.key: (each.word, each.severity, each.value, each.message, frozenset(each.rests_on)) for each in told}


def _of(entries: Sequence[Recorded], *kinds: str) -> list[Recorded]:
    return [each for each in entries if each.entry.kind in kinds]


def _about(entries: Sequence[Recorded], frame: str) -> list[Recorded]:
    return [each for each in entries if getattr(each.entry, "frame", None) == frame]


ALL, OF_FRAME = verdicts([*OF_X1, *OF_X2]), verdicts(OF_X1, "X1")


def differing(one: Verdicts, other: Verdicts) -> dict[str, tuple[object, object]]:
    return {key: (one.get(key), other.get(key)) for key in one.keys() | other.keys() if one.get(key) != other.get(key)}


@settings(max_examples=40, deadline=None)
@given(st.permutations([*OF_X1, *OF_X2]))
def test_any_order_of_processing_gives_the_same_verdicts(processed: list[Sent]):
    """The same deliveries of two frames and all they share, in any order: the same words, figures and entries."""
    assert differing(verdicts(processed), ALL) == {}


@settings(max_examples=40, deadline=None)
@given(st.sets(st.integers(0, len(OF_X2) - 1)), st.integers(0, len(OF_X1)))
def test_what_shares_nothing_with_a_frame_changes_none_of_its_verdicts(more: set[int], after: int):
    """Work on another bench by another welder with another meter, sleeve and cylinder leaves a frame as it was."""
    processed = [*OF_X1[:after], *(OF_X2[each] for each in more), *OF_X1[after:]]
    assert differing(verdicts(processed, "X1"), OF_FRAME) == {}


def test_what_is_shared_does_change_them():
    """Control: the same strange entries on the frame's own lines, by its own welder, change its verdicts."""
    shared = STRANGE.replace("S-P", "N-P").replace("S-T", "N-T").replace("CEL", "ANN").replace("who=ANN device=FAR", "")
    assert differing(verdicts([*OF_X1, *sent(shared)], "X1"), OF_FRAME)


def test_there_is_something_to_change():
    """Control: the day holds findings of many questions, and a day without its failed bead is another."""
    found = {key.partition("|")[2] for key, (word, *_) in ALL.items() if word in ("outside", "unknown")}
    assert len(found) > 20
    assert differing(verdicts([each for each in OF_X1 if each.recorded.entry.id != "bad"], "X1"), OF_FRAME)
