"""Every list has a cell for each of its columns, of the kind its sheet says."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.pages.lists.lists import LISTS
from server.record.book_of_lines import Record
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send, sign, tell

_SIGNED = {"at": "2030-01-01T00:00:00.000Z", "meaning": "given", "shown_sha256": "0" * 64}
_KINDS = {"string": str, "integer": int, "number": float, "dateTime": str, "date": str}


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    made = open_shop(Path(tmp_path_factory.mktemp("lists")))
    send(made, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    both = [_SIGNED | {"person": "LEA", "role": "quality lead"}, _SIGNED | {"person": "OWN", "role": "owner"}]
    tell(made, kind="concession", id="CN-1", frames=["SW-1"], count=2, reason="so", signatures=both)
    tell(made, kind="nonconformity", id="NC-1", title="grey", held=["SW-1/A#1"])
    lot = {"checkpoint_size": 1, "checkpoint_root": "0" * 64, "known_at": 1, "subjects_sha256": "0" * 64}
    drawn = {"welded": 1, "without_finding": 1, "drawn": ["SW-1/A#1"], "drawn_by": "LEA"}
    tell(made, kind="sample draw", id="SD-1", week="2030-W14", **lot, **drawn)
    look = {"draw": "SD-1", "subject": "SW-1/A#1", "outcome": "agrees", "words": "seen"}
    tell(made, kind="second look", id="SL-1", **look, signatures=both[:1])
    slate = Tablet("PAD")
    send(made, slate.tell("0:10", "cylinder", line="N-P", on="C-1"))
    of = {"of_kind": "filler lot", "of": "L", "name": "lot.pdf", "sha256": "0" * 64, "length": 9, "told_by": "LEA"}
    tell(made, kind="certificate file", id="CF-1", **of)
    with made.reads() as reads:
        held = next(iter(reads.registers().qualifications))
    tell(made, kind="confirmation", id="K-1", qualification=held, dated="2030-01-01", by="LEA")
    send(made, slate.tell("5:00", "bead", line="N-P", result="failed"))
    with made.reads() as reads:
        keys = [each.key for each in reads.findings() if each.verdict.question == "purge-o2"]
    sign(made, "accept", keys)
    signed = {"permits": "hold point", "frame": "SW-1", "joint": "A", "known_at": 1, "signatures": both[:1]}
    tell(made, kind="permission", id="P-1", **signed)
    yield made
    made.close()


@pytest.mark.parametrize("name", LISTS)
def test_a_cell_for_every_column(shop: Record, name: str):
    """No row is shorter or longer than its head, and a value is of the kind its column promises or missing."""
    wanted = LISTS[name]
    with shop.reads() as reads:
        rows = wanted.rows(reads)
    assert rows, "an empty list proves nothing"
    for row in rows:
        for cell, column in zip(row, wanted.columns, strict=True):
            assert cell is None or isinstance(cell, _KINDS[column.kind]), (column, cell)
