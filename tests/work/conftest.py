"""The records that the verbs are proved on."""

from tests.record.fixtures import either, empty_file, file, postgres, record, url

__all__ = ["either", "empty_file", "file", "postgres", "record", "url"]
