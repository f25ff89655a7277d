"""One application for all proofs of screens that only look."""

from collections.abc import Iterator

import pytest

from tests.pages.shop_app import ShopApp


@pytest.fixture(scope="package")
def shop_app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    """The story's shop, loaded."""
    made = ShopApp(tmp_path_factory.mktemp("shop"))
    yield made
    made.record.close()
