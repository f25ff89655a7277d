"""Lines as they were stored: by id, frame and position, with their places in the chains; the newest checkpoint."""

from hashlib import sha256

from server.evidence.chain_subject import ChainSubject
from server.evidence.leaves import leaf_hash
from server.record.book_of_lines import Record
from tests.record.fixtures import append
from tests.record.sample_lines import FRAME, new_entry, new_register, person


def test_a_line_keeps_its_bytes(either: Record):
    """The bytes as sent come back unchanged, with their digest, the envelope and the leaf over it."""
    line = new_entry(1, note="Ø 1,6 – ä")
    append(either, line)
    with either.reads() as reads:
        found = reads.line(line.id)
    assert found is not None
    assert found.body == line.body
    assert found.body_sha256 == sha256(line.body).digest()
    assert found.leaf == leaf_hash(found.envelope)
    assert sha256(line.body).hexdigest().encode() in found.envelope


def test_under_an_id_stands_the_first_taken(either: Record):
    """Repeats and refused copies do not take the place of the entry they follow, but are all given."""
    line = new_entry(1)
    append(either, line, line._replace(state="taken before", body=b""), line._replace(state="refused copy"))
    with either.reads() as reads:
        found = reads.line(line.id)
        states = [each.state for each in reads.sendings_of(line.id)]
        known = reads.sendings([line.id, "nobody"])
    assert found is not None
    assert found.position == 1
    assert states == ["taken", "taken before", "refused copy"]
    assert [each.state for each in known[line.id]] == states
    assert "nobody" not in known


def test_of_a_register_line_stands_the_last(either: Record):
    """A register line told again stands as told last."""
    append(either, new_register(person("Ada Vane")), new_register(person("Ada Reed")))
    with either.reads() as reads:
        found = reads.line("P1")
        assert reads.line("P9") is None
    assert found is not None
    assert b"Ada Reed" in found.body


def test_a_frame_has_all_its_lines(either: Record):
    """For a frame's history its lines come whether they were understood or not, as known then or now."""
    strange = new_entry(2)._replace(state="taken, not understood", problem="no such kind")
    append(either, new_entry(1), strange, new_entry(3, frame="F-2"), new_entry(4))
    with either.reads() as reads:
        assert [each.position for each in reads.lines_of_frame(FRAME)] == [1, 2, 4]
        assert [each.position for each in reads.lines_of_frame(FRAME, known_at=2)] == [1, 2]


def test_places_in_the_chains(either: Record):
    """Each line stands in the chain of every subject it names, with its running number there."""
    append(either, new_entry(1), new_entry(2, torch_line="T-2"))
    with either.reads() as reads:
        links = reads.links_between(1, 2)
        subjects = reads.subjects_of([2])
    numbers = {position: {str(subject): place.number for subject, place in own} for position, own in links.items()}
    assert numbers == {
        1: {"frame F-1": 1, "gas line T-1": 1, "instrument PA-1": 1, "welder P1": 1},
        2: {"frame F-1": 2, "gas line T-2": 1, "instrument PA-1": 2, "welder P1": 2},
    }
    assert set(subjects[2]) == {subject for subject, _ in links[2]}
    assert ChainSubject("gas line", "T-2") in subjects[2]


def test_the_newest_checkpoint(either: Record):
    """What was signed last is given, and nothing where nothing was signed."""
    with either.reads() as reads:
        assert reads.newest_checkpoint() is None
    append(either, new_entry(1))
    signed = either.checkpoint().result()
    with either.reads() as reads:
        assert reads.newest_checkpoint() == signed
    assert signed.checkpoint.size == 2


def test_lines_that_hold_some_words_are_found(either: Record):
    """Whatever kind they are of, by the bytes as they stand in a line, on both engines; no words find nothing."""
    append(either, new_entry(1, note="for Bø Lund"), new_entry(2, note="for bø lund"), new_register(person("Bø Lund")))
    with either.reads() as reads:
        assert reads.lines_holding(["Bø Lund".encode(), b"100%"]) == [new_entry(1).id, "P1"]
        assert reads.lines_holding([]) == []
