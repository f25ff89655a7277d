"""What used a thing is found without asking every pass, and is what asking every pass would find."""

import pytest

from server.occasions.tables import Tables
from server.work.what_things import KINDS, Kind, Thing, known_names, reader, uses_of_all
from tests.occasions.test_carried_on import STAGES, known, placed, told

EVERY = placed(told([0]))
SEEN: set[Kind] = {"cylinder", "fill lot", "sleeve", "filler lot", "welder", "bench", "line", "instrument", "week"}


@pytest.fixture(scope="module", params=[1, len(STAGES) - 1])
def tables(request: pytest.FixtureRequest) -> Tables:
    """Two days of work on two frames, before their papers were told and after."""
    return Tables(known(STAGES[request.param], EVERY, len(EVERY)), None)


@pytest.mark.parametrize("kind", KINDS)
def test_found_as_by_asking_every_pass(tables: Tables, kind: Kind):
    """For each thing of each kind the same passes, in the same order."""
    read = reader(tables, kind)
    for name in known_names(tables, kind):
        asked = [use for use in tables.uses.all if name in read(use)]
        assert uses_of_all(tables, [Thing(kind, name)]) == asked, name


def test_there_is_something_to_find(tables: Tables):
    """Control: of these kinds something stands under a pass here, so the comparison is no empty one."""
    assert {kind for kind in SEEN if not known_names(tables, kind)} == set()
