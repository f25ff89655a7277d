"""The folders these proofs are made in."""

from pathlib import Path

import pytest

from tests.faults.records import make_empty


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with an empty record, to be copied."""
    return make_empty(tmp_path_factory.mktemp("faults") / "empty")
