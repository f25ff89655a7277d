"""Every address for programs answers only as its form says, whatever it is sent: no failure, nothing undocumented."""

import pytest

from tests.api.drawn import asked_shop, planted_failure_is_found, try_each
from tests.faults.long_runs import contract
from tests.faults.report import keep

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


def test_fifty_of_each():
    """Fifty drawn requests to each address are answered as its form says, and never by a failure."""
    with asked_shop() as asked:
        assert try_each(*asked, 50) >= 10


@pytest.mark.long
def test_a_thousand_of_each():
    """A thousand drawn requests to each address are answered as its form says, and never by a failure."""
    keep(contract())


def test_a_planted_failure_is_found():
    """The same run on an address that fails for some numbers does not pass."""
    assert planted_failure_is_found()
