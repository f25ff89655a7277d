"""A data folder with a small record, its settings, and a backup of it."""

from pathlib import Path

from server.record.book_of_lines import Record
from server.settings import Settings
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry, new_register, person

NOW = 1_742_301_600_000
HOUR = 3_600_000


def make_data(folder: Path, entries: int = 20) -> Settings:
    """Make a data folder with one person, some entries and a checkpoint; a file lies beside the record."""
    folder.mkdir(parents=True, exist_ok=True)
    record = Record.open(url_of(folder / "record.sqlite3"), folder)
    append(record, new_register(person()), *(new_entry(number) for number in range(entries)))
    record.close()
    (folder / "photos").mkdir()
    (folder / "photos" / "a.jpg").write_bytes(b"picture" * 100)
    return Settings(data_folder=folder)


def add(settings: Settings, *numbers: int) -> bytes:
    """Append entries, and give the checkpoint signed over them."""
    record = Record.open(settings.database_url, settings.data_folder)
    append(record, *(new_entry(number) for number in numbers))
    note = record.checkpoint().result().note
    record.close()
    return note
