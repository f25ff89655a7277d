"""How a line is placed: its position, its envelope, its leaf, and its numbers in the chains of its subjects."""

import json
from hashlib import sha256

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import chain_of, extended
from server.evidence.leaves import leaf_hash
from server.record.drafts import Draft
from server.record.standing import Standing
from tests.record.sample_lines import new_entry

FRAME = ChainSubject("frame", "F-1")
LINE = ChainSubject("gas line", "T-1")


def test_the_envelope_fixes_bytes_receipt_and_chains():
    """What is hashed names position, id, sender, both times, state, the digest of the bytes and every chain place."""
    line = new_entry(1)
    drafted = Draft(Standing()).place(line)
    told = json.loads(drafted.line.envelope)
    assert told == {
        "format": "strawline line 1",
        "position": 1,
        "id": line.id,
        "kind": "entry",
        "delivery": line.id,
        "device": "TAB-1",
        "received": "2025-03-18T12:40:00.000Z",
        "sent": "2025-03-18T12:39:59.800Z",
        "state": "taken",
        "problem": None,
        "sha256": sha256(line.body).hexdigest(),
        "subjects": [[*subject, 1, chain_of(subject).head.hex()] for subject in line.subjects],
    }
    assert drafted.line.leaf == drafted.placed.leaf == leaf_hash(drafted.line.envelope)


def test_chains_grow_by_the_leaves():
    """The second line of a subject has number 2 and names the head that the first one led to."""
    draft = Draft(Standing())
    first, second = draft.place(new_entry(1)), draft.place(new_entry(2))
    after_first = extended(chain_of(FRAME), first.placed.leaf)
    places = {name: rest for kind, name, *rest in json.loads(second.line.envelope)["subjects"] if kind == "frame"}
    assert places == {"F-1": [2, after_first.head.hex()]}
    assert draft.head(FRAME) == extended(after_first, second.placed.leaf)


def test_a_forgotten_draft_leaves_no_trace():
    """What stood on a draft that was not merged is not there: position, chain and leaf are given again."""
    ground = Draft(Standing())
    ground.place(new_entry(1))
    forgotten = Draft(ground)
    lost = forgotten.place(new_entry(2))
    merged = Draft(ground)
    kept = merged.place(new_entry(3))
    ground.merge(merged)
    assert lost.placed.position == kept.placed.position == ground.size == 2
    assert ground.head(FRAME).number == 2
    assert ground.leaves[-1] == kept.placed.leaf


def test_what_is_kept_is_gone_on_from():
    """A draft that was kept is where the next one starts, its tree and its chains included."""
    standing = Standing()
    draft = Draft(standing)
    placed = [draft.place(new_entry(number)).placed for number in range(3)]
    standing.keep(draft)
    assert standing.size == 3
    assert standing.head(LINE).number == 3
    assert standing.frontier.size == 3
    assert Draft(standing).place(new_entry(4)).placed.position == placed[-1].position + 1
