"""Keys of notes: their written form, and what they have signed."""

from base64 import b64encode

import pytest

from server.evidence.note_keys import NoteKey, NoteSigner, read_key
from server.evidence.refusals import NoteRefused

SIGNER = NoteSigner("works.example/record", bytes(range(32)))


def test_a_key_is_read_back_from_its_line():
    """The written key holds name, id and public bytes, and white space around it does no harm."""
    assert read_key(f" {SIGNER.key}\n") == SIGNER.key


def test_a_key_knows_its_own_signatures():
    """A key has signed exactly the text its signer signed, and no other key has."""
    signature = SIGNER.sign(b"text")
    assert SIGNER.key.has_signed(b"text", signature)
    assert not SIGNER.key.has_signed(b"texu", signature)
    assert not SIGNER.key.has_signed(b"text", signature[:-1])
    assert not NoteSigner("works.example/record", bytes(32)).key.has_signed(b"text", signature)


def test_name_and_key_are_both_in_the_id():
    """Another name or another secret gives another key id."""
    others = [NoteSigner("works.example/other", bytes(range(32))), NoteSigner("works.example/record", bytes(32))]
    assert len({SIGNER.key.id, *(other.key.id for other in others)}) == 3


@pytest.mark.parametrize("name", ["", "a b", "a+b", "a\u2003b", "a\nb", "a\x7fb"])
def test_a_name_that_breaks_the_line_is_refused(name):
    """A key name without letters, or with spaces, plus signs or control characters, is refused."""
    with pytest.raises(NoteRefused, match="key name: found"):
        NoteSigner(name, bytes(32))


def test_a_secret_of_another_length_is_refused_without_being_shown():
    """The refusal tells the length of the secret and nothing of it."""
    with pytest.raises(NoteRefused) as refused:
        NoteSigner("a", b"hush")
    assert str(refused.value) == "secret: found 4 bytes; expected 32 bytes"


@pytest.mark.parametrize(
    "written",
    [
        "",
        "works.example/record",
        str(SIGNER.key).replace("works", "shops"),
        str(SIGNER.key)[:-2],
        str(SIGNER.key).replace("+A", "+B"),
        f"{SIGNER.key}===",
        str(NoteKey("works.example/record", bytes(31))),
        f"{SIGNER.key.name}+{SIGNER.key.id.hex()}+{b64encode(bytes([4]) + SIGNER.key.public).decode()}",
    ],
)
def test_a_slip_in_a_written_key_is_noticed(written):
    """A key whose id does not fit its name and bytes, or that is cut short, is refused."""
    with pytest.raises(NoteRefused, match="expected name\\+id\\+base64"):
        read_key(written)
