"""The quick reading of an entry gives what the close one gives, or leaves it to that."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.work import understanding
from server.work.plain_entry import read_plain
from server.work.sent_delivery import SentDelivery
from server.work.understanding import Understood, understand
from tests.record.sample_lines import DEVICE, RECEIVED, entry_bytes

MOST = 64_000
PASS = entry_bytes(1, sleeve="none", quarters=["q12", "q3"], unconfirmed=False)
LOOK = entry_bytes(2, "look", frame="F-1", joint="J1", side="outside", grade=3)
BEAD = entry_bytes(3, "bead", line="T-1", result="failed")


def both(body: bytes) -> tuple[Understood, Understood]:
    """Understand a sending as it is understood, and by the close reading alone."""
    sent = SentDelivery("D-1", DEVICE, RECEIVED - 200, RECEIVED, body)
    with pytest.MonkeyPatch.context() as without:
        without.setattr(understanding, "read_plain", lambda *_: None)
        closely = understand(sent)
    return understand(sent), closely


@pytest.mark.parametrize("body", [PASS, LOOK, BEAD])
def test_what_a_tablet_writes_is_read_at_once(body: bytes):
    """Canonical lines of every kind of value are plain, and understood as the close reading understands them."""
    assert read_plain(body, MOST) is not None
    quick, closely = both(body)
    assert quick == closely


ODD: list[Callable[[bytes], bytes]] = [
    lambda body: body.replace(b'"seq":1', b'"seq":1,"seq":1'),
    lambda body: body.replace(b'"seq":1', b'"seq":1,"seq" :1'),
    lambda body: body.replace(b'"seq":1', b'"seq":1,"\\u0073eq":1'),
    lambda body: body.replace(b'"seq":1', b'"seq":1.0'),
    lambda body: body.replace(b'"seq":1', b'"seq":1e0'),
    lambda body: body.replace(b'"seq":1', b'"seq":NaN'),
    lambda body: body.replace(b'"seq":1', b'"seq":9007199254740992'),
    lambda body: body.replace(b'"seq":1', b'"seq":' + b"9" * 5000),
    lambda body: body.replace(b'"seq":1', b'"seq":"1"'),
    lambda body: body.replace(b'"seq":1', b'"seq":true'),
    lambda body: body.replace(b'"unit":"ppm"', b'"unit":"ppm","unit":"ppm"'),
    lambda body: body.replace(b'"value":"41"', b'"value":41.0'),
    lambda body: body.replace(b'"value":"41"', b'"value":41'),
    lambda body: body.replace(b'"oxygen":{', b'"oxygen":{},"oxygen":{'),
    lambda body: body.replace(b'"q12"', b'12.0'),
    lambda body: body.replace(b'"unconfirmed":false', b'"unconfirmed":0'),
    lambda body: body.replace(b'"sleeve":"none"', b'"note":"\\ud83d","sleeve":"none"'),
    lambda body: body.replace(b'"sleeve":"none"', b'"note":"\xff","sleeve":"none"'),
    lambda body: body.replace(b'"sleeve":"none"', b'"note":"\xed\xa0\x80","sleeve":"none"'),
    lambda body: body.replace(b'"sleeve":"none"', b'"note":"\t","sleeve":"none"'),
    lambda body: body.replace(b'"sleeve":"none"', b'"note":"a\\u0000b","sleeve":"none"'),
    lambda body: b"\xef\xbb\xbf" + body,
    lambda body: body + b"\n",
    lambda body: body + b"{}",
    lambda body: body.replace(b",", b",\r"),
    lambda body: body.replace(b'"who":"P1"', b'"who":"' + b"P" * 64_000 + b'"'),
]  # fmt: skip


@pytest.mark.parametrize("made_odd", ODD)
def test_what_is_odd_is_left_to_the_close_reading(made_odd: Callable[[bytes], bytes]):
    """Two under one name, a float, a number too large and every other slip is found and told as it is closely."""
    body = made_odd(PASS)
    assert body != PASS
    assert read_plain(body, MOST) is None
    quick, closely = both(body)
    assert quick == closely


@pytest.mark.parametrize("note", [b'\\":', b":", b'a \\" : b', "45 °C \U0001f602".encode(), b'{\\"seq\\":1}'])
def test_words_that_look_like_names_change_nothing(note: bytes):
    """A note is understood alike, whatever quotes and colons stand in it."""
    quick, closely = both(PASS.replace(b'"sleeve"', b'"note":"' + note + b'","sleeve"'))
    assert quick.named is not None
    assert quick == closely


PIECES = st.sampled_from(
    [
        b'"',
        b":",
        b",",
        b"{",
        b"}",
        b" ",
        b"\\",
        b"1",
        b".5",
        b'"seq":1',
        b'"by":"PA-1",',
        b"\\u0061",
        b"\t",
        b"\xc3\xa9",
    ]
)


@given(
    st.sampled_from([PASS, LOOK, BEAD]), st.lists(st.tuples(st.integers(0, 500), st.integers(0, 3), PIECES), max_size=3)
)
def test_whatever_is_put_in_is_understood_alike(body: bytes, changes: list[tuple[int, int, bytes]]):
    """However a line is cut and pieced, both readings give one line, one state and the same words."""
    for at, cut, piece in changes:
        body = body[:at] + piece + body[at + cut :]
    quick, closely = both(body)
    assert quick == closely
