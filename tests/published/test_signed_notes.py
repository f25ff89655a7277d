"""Signed notes and checkpoints against the examples printed in their specifications.

Sources: C2SP signed-note, section "Verifier keys", example (key and note); C2SP tlog-checkpoint, first example.
"""

from base64 import b64decode

import pytest

from server.evidence.checkpoints import Checkpoint
from server.evidence.note_keys import read_key
from server.evidence.notes import open_note
from server.evidence.refusals import NoteRefused

KEY = "example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k"
NOTE = (
    "This is an example message.\n\n\u2014 example.com/foo "
    "Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=\n"
)


def test_the_printed_key():
    """The printed key is read, its id is the printed one, and it is written as printed."""
    key = read_key(KEY)
    assert (key.name, key.id.hex(), str(key)) == ("example.com/foo", "530d903a", KEY)


def test_the_printed_note():
    """The printed note opens with the printed key, and with one letter changed it does not."""
    assert open_note(NOTE.encode(), [read_key(KEY)]) == "This is an example message.\n"
    with pytest.raises(NoteRefused):
        open_note(NOTE.replace("example m", "Example m").encode(), [read_key(KEY)])


def test_the_printed_checkpoint():
    """A checkpoint of the printed record, size and root has the printed three lines."""
    root = b64decode("CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=")
    assert Checkpoint("example.com/behind-the-sofa", 20852163, root).text() == (
        "example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n"
    )
