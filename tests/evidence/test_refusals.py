"""Refusals: where, what, and what instead."""

from server.evidence.refusals import LineRefused, NoteRefused


def test_a_refusal_says_all_three():
    """The sentence holds the place, the value and what is expected, and each can be had by itself."""
    refused = LineRefused("values.amps", 45.5, "a measured value as text")
    assert str(refused) == "values.amps: found 45.5; expected a measured value as text"
    assert (refused.path, refused.value, refused.expected) == ("values.amps", "45.5", "a measured value as text")


def test_a_long_value_is_cut():
    """A refusal of a large value stays readable."""
    assert len(NoteRefused("note", "x" * 10_000, "less").value) == 60


def test_a_refusal_can_always_be_sent():
    """Half of a surrogate pair in the value does not make the message unsendable."""
    assert str(LineRefused("note", "\ud83d", "whole text")).encode() == b"note: found \\ud83d; expected whole text"
