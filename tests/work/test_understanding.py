"""Reading the entry out of a sending: what is understood, and what is said where it is not."""

from typing import Any

import pytest

from server.work.sent_delivery import SentDelivery
from server.work.understanding import understand
from tests.record.sample_lines import DEVICE, OXYGEN, RECEIVED, entry_bytes


def sending(body: bytes, problem: str | None = None) -> SentDelivery:
    return SentDelivery("D-1", DEVICE, RECEIVED - 200, RECEIVED, body, problem)


def test_an_entry_becomes_a_line_with_its_columns():
    """An understood entry's line carries its own id, its bytes as sent, its clocks, its frame and its subjects."""
    body = entry_bytes(7)
    line, named = understand(sending(body))
    assert named is not None
    assert (line.id, line.delivery, line.body, line.state) == ("TAB-1:b1:7", "D-1", body, "taken")
    assert (line.entry_kind, line.frame, line.boot, line.seq, line.mono_ms) == ("pass", "F-1", "b1", 7, 7000)
    assert "frame F-1" in map(str, line.subjects)


def test_bytes_are_kept_as_they_came():
    """An entry written with spaces between its parts is understood, and its bytes are not tidied."""
    body = entry_bytes(7).replace(b'":', b'" : ')
    line, named = understand(sending(body))
    assert named is not None
    assert line.body == body


@pytest.mark.parametrize(
    ("further", "said"),
    [
        ({"who": None}, "who: found missing; Field required"),
        ({"seq": -1}, "seq: found -1; Input should be greater than or equal to 0"),
        ({"weather": "rain"}, "weather: found 'rain'; Extra inputs are not permitted"),
        ({"happened": "noon"}, "happened: found 'noon'; 'noon' is not a moment; write UTC as"),
        ({"values": {"oxygen": OXYGEN | {"unit": "%"}}}, "values.oxygen is in '%'; it is sealed in 'ppm'"),
        ({"values": {"oxygen": OXYGEN | {"by": None}}}, "`by` must name the instrument"),
        ({"values": {"luck": OXYGEN}}, "values.luck is not a quantity of the bench; known are"),
        ({"kind": "dance"}, "kind: found"),
    ],
)
def test_a_slip_is_named_with_field_and_value(further: dict[str, Any], said: str):
    """What keeps an entry from being understood is said with its field, what stood there and what is expected."""
    line, named = understand(sending(entry_bytes(1, **further)))
    assert named is None
    assert line.state == "taken, not understood"
    assert said in str(line.problem)
    assert "log it again as a new entry" in str(line.problem)
    assert line.id == "TAB-1:b1:1"


def test_many_slips_are_not_all_told():
    """Of many slips the first few are told and the rest counted."""
    strange: dict[str, Any] = {f"x{number}": 1 for number in range(10)}
    line, _ = understand(sending(entry_bytes(1, **strange)))
    assert "; and 7 more;" in str(line.problem)


def test_a_line_that_breaks_a_rule_of_sealing_keeps_its_own_id():
    """A float is refused by its path, and the entry still has the id it told."""
    body = entry_bytes(1).replace(b'"seq":1', b'"seq":1.5')
    line, named = understand(sending(body))
    assert named is None
    assert line.id == "TAB-1:b1:1"
    assert "seq: found 1.5" in str(line.problem)


NAMELESS = [b"", b"nothing", b"[]", b'"text"', b'{"id":5}', b'{"id":"x"}', b'{"id":"a\\u0000bc"}']


@pytest.mark.parametrize("body", NAMELESS)
def test_without_an_id_of_its_own_the_sendings_counts(body: bytes):
    """Where no id can be made out, the line stands under the id of its sending."""
    assert understand(sending(body)).line.id == "D-1"


def test_what_is_wrong_around_an_entry_is_told():
    """A good entry in a wrapping that is not right is kept with what is wrong with the wrapping."""
    line, named = understand(sending(entry_bytes(1), "sent_at: 'noon' is not a moment"))
    assert named is None
    assert str(line.problem).startswith("sent_at: 'noon' is not a moment")


def test_what_was_not_understood_names_its_frame():
    """An entry that names a frame stands under it even when the rest cannot be understood."""
    line, _ = understand(sending(entry_bytes(1, weather="rain")))
    assert line.frame == "F-1"
    assert [str(subject) for subject in line.subjects] == ["frame F-1"]
