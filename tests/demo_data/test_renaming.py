"""The same kind of history under other names and on other days."""

from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.renaming import Renaming

MOVED = VERSIONS["moved"].renaming


def test_without_changes_a_line_stays_as_it_is() -> None:
    """The first version is told in its own words."""
    assert Renaming().line('{"frame":"MT-0041","at":"2025-03-18"}') == '{"frame":"MT-0041","at":"2025-03-18"}'


def test_codes_get_others_and_what_hangs_on_them_follows() -> None:
    """A serial, a line of a bench and a cylinder are renamed wherever they stand, joints and grades are not."""
    told = MOVED.line('{"key":"MT-0041/J06#1|purge-o2","line":"B1-P","on":"AR-0317","who":"W01","joint":"F01"}')
    assert told == '{"key":"KR-2341/J06#1|purge-o2","line":"N2-P","on":"CY-3417","who":"S14","joint":"F01"}'


def test_days_and_moments_move_by_whole_weeks() -> None:
    """Days, moments with and without an offset, and moments inside a key move by 52 weeks."""
    assert MOVED.line("2025-03-18 2025-03-18T12:05:00.000Z") == "2026-03-17 2026-03-17T12:05:00.000Z"
    assert MOVED.line("x@2025-03-18T13:05") == "x@2026-03-17T13:05"
    assert MOVED.toml("at = 2025-03-18T13:05:00+01:00") == "at = 2026-03-17T13:05:00+01:00"


def test_a_digest_is_no_code() -> None:
    """Hex digests and device starts hold nothing that is renamed."""
    line = '{"photo":"b1f01a01w01ab2", "boot":"b1b2", "sha256":"0b1"}'
    assert MOVED.line(line) == line


def test_the_line_of_a_delivery_is_renamed_once() -> None:
    """Around a line that is renamed already, device and id are renamed and the line is left alone."""
    told = MOVED.outside({"id": "TAB-A-d1", "device": "TAB-A", "line": '{"frame":"MT-0001"}'})
    assert told == '{"device":"SLATE-4","id":"SLATE-4-d1","line":"{\\"frame\\":\\"MT-0001\\"}"}'
