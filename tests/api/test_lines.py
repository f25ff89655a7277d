"""What can be read back over HTTP: a line by its id, with its bytes and its leaf, and the newest checkpoint."""

import json
from base64 import b64decode

import pytest

from server.evidence.leaves import leaf_hash
from server.record.book_of_lines import Record
from tests.api.asking import Asker, delivery


def test_a_line_is_shown_with_what_was_hashed(asker: Asker):
    """The bytes as sent, and an envelope that hashes to the leaf on the receipt."""
    sent = delivery(1, note="Ø 1,6")
    (receipt,) = asker.send(sent).json()["receipts"]
    answer = asker.ask("GET", f"/api/lines/{sent['id']}")
    assert answer.status_code == 200
    shown = answer.json()
    assert b64decode(shown["body"]) == sent["line"].encode()
    assert leaf_hash(shown["envelope"].encode()).hex() == shown["leaf"] == receipt["leaf"]
    assert json.loads(shown["envelope"])["sha256"] == shown["body_sha256"]
    assert (shown["position"], shown["state"], shown["sendings"]) == (1, "taken", [])


def test_repeats_and_refused_copies_are_shown_with_it(asker: Asker):
    """Under the id come every further sending, each with its state."""
    for sent in (delivery(1), delivery(1) | {"sent_at": "2025-03-18T12:50:00.000Z"}, delivery(1, joint="J2")):
        asker.send(sent)
    shown = asker.ask("GET", "/api/lines/TAB-1:b1:1").json()
    assert shown["state"] == "taken"
    assert [each["state"] for each in shown["sendings"]] == ["taken before", "refused copy"]


def test_an_id_may_hold_a_slash(asker: Asker):
    """Whatever an entry is called, it can be asked for by its id."""
    asker.send(delivery(1, id="a/b c?d"))
    assert asker.ask("GET", "/api/lines/a%2Fb%20c%3Fd").json()["id"] == "a/b c?d"


@pytest.mark.parametrize("path", ["/api/lines/nobody", "/api/lines/a%00b", "/api/checkpoints/latest"])
def test_what_is_not_there_is_said(asker: Asker, path: str):
    """An unknown id, an impossible one, and a record never sealed are answered with 404 and what to do."""
    answer = asker.ask("GET", path)
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"
    assert ";" in answer.json()["detail"]


def test_the_newest_checkpoint_is_shown(asker: Asker, record: Record):
    """The checkpoint is given as it was signed."""
    asker.send(delivery(1))
    signed = record.checkpoint().result()
    shown = asker.ask("GET", "/api/checkpoints/latest").json()
    assert (shown["size"], shown["origin"]) == (2, signed.checkpoint.origin)
    assert b64decode(shown["root"]) == signed.checkpoint.root
    assert shown["note"].encode() == signed.note
