"""Every address for programs answers only as its form says, whatever it is sent: no failure, nothing undocumented."""

from collections.abc import Iterator
from typing import Any

import pytest

from tests.api.drawn import form_of, owners_cookies, planted_failure_is_found, try_each
from tests.faults.long_runs import contract
from tests.faults.report import keep
from tests.security.conftest import open_shop

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


@pytest.fixture(scope="module")
def owners(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Any, str]]:
    """The form of the addresses, and the cookies of the owner signed in on an enrolled tablet."""
    app, record = open_shop(tmp_path_factory.mktemp("contract"))
    yield form_of(app), owners_cookies(app)
    record.close()


def test_fifty_of_each(owners: tuple[Any, str]):
    """Fifty drawn requests to each address are answered as its form says, and never by a failure."""
    assert try_each(*owners, 50) >= 10


@pytest.mark.long
def test_a_thousand_of_each():
    """A thousand drawn requests to each address are answered as its form says, and never by a failure."""
    keep(contract())


def test_a_planted_failure_is_found():
    """The same run on an address that fails for some numbers does not pass."""
    assert planted_failure_is_found()
