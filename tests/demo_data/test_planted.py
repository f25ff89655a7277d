"""What the story plants is in the log, to the minute and to the figure."""

from collections import Counter

import pytest

from demo_data.generator.days import show
from demo_data.generator.story import Happening
from tests.demo_data.told import Told, clocks, moment


@pytest.mark.parametrize(
    ("joint", "hours", "oxygen"),
    [("J06", ["13:22", "13:38"], ["36", "41"]), ("J03", ["14:12", "14:30"], ["40", "42"]),
     ("J05", ["15:02", "15:18"], ["41", "43"]), ("J07", ["08:22", "08:36"], ["42", "43"]),
     ("J09", ["10:52", "11:10"], ["41", "45"])],
)  # fmt: skip
def test_runs_on_the_bad_cylinder(full: Told, joint: str, hours: list[str], oxygen: list[str]) -> None:
    """I-01: root and fill end when the story says, with the oxygen it says."""
    assert clocks(full.of("MT-0041", joint, "pass")) == hours
    assert full.oxygen("MT-0041", joint) == oxygen


def test_the_cylinder_before_read_steadily(full: Told) -> None:
    """I-01: on the cylinder before, the analyser read 6 to 11 ppm with a median of 8."""
    first, last = moment("2025-03-10", "13:05"), moment("2025-03-18", "13:05")
    on = [h for h in full.by_kind["pass"] if h.fields["purge_line"] == "B1-P" and first < h.at < last]
    shown = [h.fields["values"]["oxygen"] for h in on]
    read = sorted(int(each["value"]) for each in shown if each["how"] == "read")
    assert (min(read), max(read) <= 11, read[len(read) // 2]) == (6, True, 8)


def test_the_claimed_seam(full: Told) -> None:
    """I-01: the fill that cracked later: 74.3 s, 37.0 A, 10.1 V, gap 0.10 mm, sleeve FT-0158, nobody looked inside."""
    fill = full.of("MT-0041", "J06", "pass")[1].fields
    assert [fill["values"][name]["value"] for name in ("arc_on", "mean_current", "volts")] == ["74.3", "37.0", "10.1"]
    assert fill["sleeve"] == "FT-0158"
    assert full.of("MT-0041", "J06", "gap")[0].fields["values"]["gap"]["value"] == "0.10"
    assert [h.fields["side"] for h in full.of("MT-0041", "J06", "look")] == ["outside"]


def test_the_failed_bead(full: Told) -> None:
    """I-01: the purge bead of Wednesday 16:05 failed, the one on the next cylinder was good."""
    beads = [h for h in full.by_kind["bead"] if h.fields["line"] == "B1-P" and show(h.at).startswith("2025-03-19")]
    assert [(show(h.at)[11:], h.fields["result"]) for h in beads] == [("16:05", "failed"), ("16:32", "good")]


def test_the_wetted_cell(full: Told) -> None:
    """I-04: the meter shows 11 to 19 on the sixteen joints, 0 to 3 otherwise, and 0 first of all."""
    since, until = moment("2025-08-25", "06:00"), moment("2025-09-30", "07:20")
    by = [h for h in full.by_kind["pass"] if h.fields["values"]["oxygen"]["by"] == "PA-2" and since < h.at < until]
    shown = [(h.fields["frame"], h.fields["joint"], int(h.fields["values"]["oxygen"]["value"])) for h in _by_time(by)]
    assert shown[0][2] == 0
    high = [(frame, joint, ppm) for frame, joint, ppm in shown if ppm > 3]
    joints = {(frame, joint) for frame, joint, _ in high if joint[0] == "K"}
    assert (len(joints), {frame for frame, _ in joints}) == (16, {"MT-0128", "MT-0130"})
    assert all(11 <= ppm <= 19 for _, _, ppm in high)
    assert {joint[0] for _, joint, ppm in high if ppm > 14} == {"K"}


def _by_time(happenings: list[Happening]) -> list[Happening]:
    return sorted(happenings, key=lambda h: h.at)


def test_the_cross_checks(full: Told) -> None:
    """I-04: four cross-checks failed and nobody acted; one Friday has none."""
    crossed = {show(h.at)[:10]: h.fields for h in full.by_kind["check"] if h.fields["check"] == "cross"}
    failed = {day: fields["acted_on"] for day, fields in crossed.items() if fields["result"] == "failed"}
    assert failed == dict.fromkeys(("2025-09-05", "2025-09-12", "2025-09-19", "2025-09-26"), False)
    assert "2025-08-29" not in crossed
    assert crossed["2025-08-22"]["values"]["oxygen"]["value"] == "8"


def test_the_seam_hidden_too_early(full: Told) -> None:
    """I-05: the down tube is tacked at 08:48 over a quarter that is filled at 09:40 and released at 14:05."""
    fills = [h for h in full.of("MT-0087", "J01", "pass") if h.fields["run"] == "fill"]
    assert [(show(h.at)[8:], h.fields["quarters"]) for h in fills] == [
        ("11T16:50", ["q3", "q6"]), ("12T09:40", ["q9", "q12"])
    ]  # fmt: skip
    assert clocks(full.of("MT-0087", "J04", "tack")) == ["08:48"]
    assert [show(h.at) for h in full.of("MT-0087", "J01", "release")] == ["2025-06-12T14:05"]


def test_three_repairs_in_an_afternoon(full: Told) -> None:
    """I-06: three repairs of 34 s on two quarters, the last without a sleeve, two without a temperature."""
    runs = [full.of("MT-0149", "J10", "pass", attempt)[0] for attempt in (2, 3, 4)]
    assert [h.at for h in runs] == [moment("2025-10-15", clock) for clock in ("14:01:38", "14:24:12", "14:52:46")]
    assert {(h.at - h.moments["arc_started"]) / 1000 for h in runs} == {34.0}
    assert ["interpass" in h.fields["values"] for h in runs] == [True, False, False]
    assert [h.fields.get("sleeve") for h in runs] == ["FT-0203", "FT-0203", None]


def test_a_weekend_without_network(full: Told) -> None:
    """I-07: 61 entries in 99 sendings, of the kinds and in the order the story counts; the first 38 went twice."""
    start, end = moment("2026-02-12", "13:30"), moment("2026-02-16", "08:10")
    waiting = [h for h in full.story.happenings if h.device == "TAB-B" and start <= h.tapped < end]
    kinds = Counter(h.fields.get("run") or h.fields.get("side") or h.fields["kind"] for h in waiting)
    assert kinds == {
        "tack": 12, "root": 12, "fill": 12, "outside": 12, "inside": 8, "bead": 2, "check": 1, "cylinder": 1,
        "release": 1,
    }  # fmt: skip
    ids = {h.id for h in waiting}
    sendings = Counter(entry for sending in full.sent if (entry := _id(sending.line)) in ids)
    assert (len(ids), sendings.total(), Counter(sendings.values())) == (61, 99, {1: 23, 2: 38})


def _id(line: bytes) -> str:
    return line.decode().partition('"id":"')[2].partition('"')[0]


def test_a_slow_clock(full: Told) -> None:
    """I-08: for two days the tablet's clock is 2,830 s behind; seven entries were sent only after it was mended."""
    slow = [e for e in full.entries if e["device"] == "TAB-A" and e["boot"] == "5d0a"]
    tack = next(h for h in full.of("MT-0233", "J13", "tack"))
    assert show(tack.at) == "2026-03-26T09:02"
    assert tack.shown - tack.at == -2_830_000
    first, last = moment("2026-03-26", "12:20"), moment("2026-03-26", "12:25")
    late = [s for s in full.sent if s.device == "TAB-A" and first <= s.received < last]
    assert len([s for s in late if _id(s.line) in {e["id"] for e in slow}]) == 7
    assert {round((s.sent or 0) - s.received, -3) for s in late} == {0}


def test_low_currents_and_a_late_result(full: Told) -> None:
    """I-10: the currents of the story, and a coupon whose result is entered two hours and fifty minutes later."""
    amps = {
        joint: full.of("MT-0221", joint, "pass")[1].fields["values"]["mean_current"]["value"]
        for joint in ("J05", "J06", "J07", "J08")
    }
    assert amps == {"J05": "34.0", "J06": "28.0", "J07": "33.0", "J08": "35.0"}
    coupons = [h for h in full.by_kind["coupon"] if h.who == "W04" and show(h.at).startswith("2026-03-05")]
    assert [(show(h.tapped)[11:], h.fields["result"]) for h in coupons] == [("07:50", "waiting"), ("10:40", "failed")]
    assert coupons[1].fields["of"] is coupons[0]


def test_a_picture_used_twice(full: Told) -> None:
    """I-11: one picture belongs to two joints; every other picture of the history is its own."""
    pictures = Counter(h.fields["sha256"] for h in full.by_kind["photo"])
    ((twice, count),) = [(sha, n) for sha, n in pictures.items() if n > 1]
    joints = {(h.fields["frame"], h.fields["joint"]) for h in full.by_kind["photo"] if h.fields["sha256"] == twice}
    assert (count, joints) == (2, {("MT-0178", "K03"), ("MT-0178", "K04")})


def test_a_tablet_in_a_drawer(full: Told) -> None:
    """I-14: three entries of a Tuesday afternoon are received on a Monday two weeks later, under their old boot."""
    sent = [s for s in full.sent if s.device == "TAB-C" and show(s.received).startswith("2026-05-18T09:05")]
    old = [e for e in full.entries if e["id"] in {_id(s.line) for s in sent} and e["device_time"] < "2026-05-06"]
    assert [e["kind"] for e in sorted(old, key=lambda e: e["seq"])] == ["pass", "look", "problem"]
    assert len({e["boot"] for e in old}) == 1
    assert "e3b7" not in {e["boot"] for e in old}
