"""The records these proofs are made on."""

from tests.record.fixtures import either, empty_file, file, postgres, record, url

__all__ = ["either", "empty_file", "file", "postgres", "record", "url"]
