"""The whole history told once, and small folders written once, for all proofs of the generator."""

from pathlib import Path

import pytest

from demo_data.generator.build import make_shop, tell_story
from demo_data.generator.elsewhere import VERSIONS
from demo_data.generator.folder import write_shop
from demo_data.generator.planting import planted
from demo_data.generator.selection import SELECTIONS
from demo_data.generator.story import Story
from tests.demo_data.told import Told, sent_of


@pytest.fixture(scope="session")
def full() -> Told:
    """The whole history of the first version, as collected and as sent."""
    plan = planted({})
    shop = make_shop(plan, 1, {})
    story = tell_story(shop, SELECTIONS["full"])
    return Told(shop, story, sent_of(plan, story))


@pytest.fixture(scope="session")
def small(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small shop's folder."""
    folder = tmp_path_factory.mktemp("demo") / "small"
    write_shop(folder, "small")
    return folder


@pytest.fixture(scope="session")
def moved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """As many frames of the shop that is told under other names on other days."""
    folder = tmp_path_factory.mktemp("demo") / "moved"
    write_shop(folder, "small", VERSIONS["moved"])
    return folder


@pytest.fixture(scope="session")
def moved_story() -> Story:
    """The whole history of the moved version, before it is renamed."""
    version = VERSIONS["moved"]
    return tell_story(make_shop(planted(version.moves), version.seed, {}), SELECTIONS["full"])
