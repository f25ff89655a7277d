"""The data folder these proofs are made on."""

from pathlib import Path

import pytest

from server.settings import Settings
from tests.upkeep.shop_data import make_data


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A data folder with a small record in it."""
    return make_data(tmp_path / "data")
