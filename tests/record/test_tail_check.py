"""The end of a record is looked at before it goes on: an altered tail is open for reading and closed for writing."""

from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.record.troubles import RecordClosed
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry
from tests.record.tampering import tamper


@pytest.fixture
def unsealed(file: Path) -> Path:
    """A record of three sealed entries and three that were not sealed any more, since the key was away."""
    record = Record.open(url_of(file))
    append(record, *(new_entry(number) for number in range(3)))
    record.close()
    key = file.with_name("record.key")
    key.rename(file.with_name("away.key"))
    record = Record.open(url_of(file))
    append(record, *(new_entry(number) for number in range(3, 6)))
    record.close()
    file.with_name("away.key").rename(key)
    return file


def test_an_honest_end_goes_on(unsealed: Path):
    """Control: nothing was altered, and the next line is taken."""
    record = Record.open(url_of(unsealed))
    assert append(record, new_entry(9))[0].position == 8
    record.close()


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE line SET body = replace(body, '41', '14') WHERE position = 6", "position 6, .* bytes"),
        ("UPDATE line SET envelope = replace(envelope, 'TAB-1', 'TAB-2') WHERE position = 6", "position 6"),
        ("UPDATE line SET frame = 'F-2' WHERE position = 7", "position 7, .* frame is 'F-2'"),
        ("DELETE FROM line WHERE position = 6", "position"),
        ("UPDATE subject_link SET head = 'x' WHERE position = 5 AND kind = 'frame'", "position"),
        ("UPDATE subject_link SET head = zeroblob(32) WHERE position = 3 AND kind = 'frame'", "position 5, .* chains"),
        ("DELETE FROM line WHERE position > 3", "ends at position 3, but a checkpoint was signed over 4"),
        ("UPDATE checkpoint SET root = zeroblob(32)", "another root than was signed"),
        ("UPDATE checkpoint SET peaks = zeroblob(64)", "checkpoint over 4 lines"),
    ],
)
def test_an_altered_end_is_read_but_not_written(unsealed: Path, statement: str, said: str):
    """Whatever was altered behind the last checkpoint, or that checkpoint itself, is named, and nothing is taken."""
    tamper(unsealed, statement)
    record = Record.open(url_of(unsealed))
    with pytest.raises(RecordClosed, match=f"last lines do not hold: .*{said}"):
        append(record, new_entry(9))
    assert not record.condition().fit
    with record.reads() as reads:
        assert reads.last_position() >= 3
    record.close()


def test_what_lies_before_the_last_checkpoint_is_for_the_whole_check(unsealed: Path):
    """Control: starting stays quick, so an altered line far back is not looked at here."""
    tamper(unsealed, "UPDATE line SET frame = 'F-2' WHERE position = 2")
    record = Record.open(url_of(unsealed))
    assert record.condition().fit
    record.close()
