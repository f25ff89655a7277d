"""A PIN is set for somebody who works here, and only its hash is kept."""

from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.load_folder import load_folder
from server.work.proving import SecretTooWeak, proves
from server.work.set_pin import NobodyOfThatName, set_pin
from server.work.shop_folder import read_shop_folder
from tests.work.moved_in import moved_in

NOW = 1_790_000_000_000


@pytest.fixture
def peopled(record: Record, tmp_path: Path) -> Record:
    """A record that knows one person."""
    load_folder(record, read_shop_folder(moved_in(tmp_path / "shop")), NOW)
    return record


def kept(record: Record) -> str:
    with record.reads() as reads:
        return reads.credentials("ada")["pin"].secret_hash


def test_the_pin_fits_and_the_old_one_no_longer(peopled: Record) -> None:
    """The last PIN set is the one that proves who it is; what is kept is a hash."""
    set_pin(peopled, "ada", "604815", NOW)
    assert set_pin(peopled, "ada", "481920", NOW) == "Ada Vane"
    assert proves("481920", kept(peopled), peopled.pepper)
    assert not proves("604815", kept(peopled), peopled.pepper)
    assert "481920" not in kept(peopled)


def test_a_weak_pin_is_refused(peopled: Record) -> None:
    """A PIN anybody would try first is not set."""
    with pytest.raises(SecretTooWeak):
        set_pin(peopled, "ada", "123456", NOW)


def test_nobody_gets_no_pin(peopled: Record) -> None:
    """For a name no register knows, none is set, and it says what to do."""
    with pytest.raises(NobodyOfThatName, match="as a person first"):
        set_pin(peopled, "bob", "481920", NOW)
