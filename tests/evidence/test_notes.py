"""Signed notes: any altered byte, any missing known signature, and the note is not opened."""

from base64 import b64encode

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.evidence.note_keys import NoteSigner
from server.evidence.notes import open_note, sign_note
from server.evidence.refusals import NoteRefused

SIGNER, WITNESS = NoteSigner("works.example/record", bytes(32)), NoteSigner("witness.example", bytes(range(32)))
TEXT = "works.example/record\n\u2014 not a signature\n\nlast line\n"
NOTE = sign_note(TEXT, SIGNER)


def test_a_note_is_opened_with_the_key():
    """The text comes back whole, with empty lines and dashes of its own."""
    assert open_note(NOTE, [WITNESS.key, SIGNER.key]) == TEXT


@given(st.integers(0, len(NOTE) - 1), st.integers(1, 255))
def test_any_altered_byte_is_noticed(at, change):
    """Change any byte of text, name, key id or signature, and the note is refused."""
    altered = NOTE[:at] + bytes([NOTE[at] ^ change]) + NOTE[at + 1 :]
    with pytest.raises(NoteRefused):
        open_note(altered, [SIGNER.key])


@given(st.integers(0, len(NOTE) - 1))
def test_a_note_cut_short_is_noticed(length):
    """No beginning of a note passes for the note."""
    with pytest.raises(NoteRefused):
        open_note(NOTE[:length], [SIGNER.key])


def test_a_witness_signature_does_no_harm():
    """A signature by a key nobody here knows is passed over, before and behind ours."""
    theirs = sign_note(TEXT, WITNESS).removeprefix(TEXT.encode() + b"\n")
    ours = NOTE.removeprefix(TEXT.encode() + b"\n")
    for signed in (theirs + ours, ours + theirs):
        assert open_note(TEXT.encode() + b"\n" + signed, [SIGNER.key]) == TEXT


def test_a_false_signature_of_a_known_key_spoils_the_note():
    """Even beside a good signature, one that a known key did not make is not passed over."""
    false = b64encode(WITNESS.key.id + bytes(64)).decode()
    with pytest.raises(NoteRefused, match=r"signature: found witness\.example"):
        open_note(NOTE + f"\u2014 witness.example {false}\n".encode(), [SIGNER.key, WITNESS.key])


def test_no_known_key_no_text():
    """A note signed only by others is refused and says who did sign."""
    with pytest.raises(NoteRefused, match=r"\['works\.example/record'\]; expected one by a known key of \['witness"):
        open_note(NOTE, [WITNESS.key])


@pytest.mark.parametrize(
    ("note", "said"),
    [
        (b"", "a text, an empty line, and signature lines"),
        (b"text\n", "a text, an empty line, and signature lines"),
        (NOTE.removesuffix(b"\n"), "end with a line break"),
        (NOTE.replace(b"last", b"la\tst"), "no control character"),
        (b"\xff" + NOTE, "expected UTF-8"),
        (NOTE + b"- works.example/record AAAAAAAA\n", "signature line: found - works"),
        (NOTE + "\u2014 works.example/record AAAA\n".encode(), "base64 of key id and signature"),
        (NOTE + "\u2014 works.example/record AAAAAAB=\n".encode(), "base64 of key id and signature"),
        (NOTE + "\u2014  AAAAAAA=\n".encode(), "a key name and base64"),
        (NOTE + "\u2014 a+b AAAAAAA=\n".encode(), "a key name and base64"),
        (b"x" * 300_000, "found 300000 bytes"),
    ],
)
def test_a_malformed_note_says_how(note, said):
    """Each way of being no note has its own sentence."""
    with pytest.raises(NoteRefused, match=said):
        open_note(note, [SIGNER.key])


@pytest.mark.parametrize("text", ["no line break", "tab\t\n", ""])
def test_only_a_text_that_can_be_read_back_is_signed(text):
    """A text without its last line break or with control characters is not signed at all."""
    with pytest.raises(NoteRefused):
        sign_note(text, SIGNER)
