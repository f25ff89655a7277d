"""Long questions to the database are told of while they last, and end with what ends the telling."""

from pathlib import Path
from threading import Event
from typing import Any

import pytest
from sqlalchemy import text

from server.record.engines import make_engines
from server.record.saying import said_beside

_COUNT = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {}) SELECT max(i) FROM n"


def test_it_is_said_while_the_question_lasts(tmp_path: Path):
    """What was found is given, and that it is looked for is told as long as it lasts."""
    said: list[tuple[str, int, int]] = []
    heard = Event()

    def say(*each: Any) -> None:
        said.append(each)
        heard.set()

    with make_engines(f"sqlite:///{tmp_path}/one.sqlite3").reading.connect() as connection:

        def work() -> int:
            assert heard.wait(60)
            found: int = connection.execute(text(_COUNT.format(1000))).scalar_one()
            return found

        assert said_beside(connection, say, "numbers", work) == 1000
    assert set(said) == {("numbers", 0, 0)}


def test_stopped_by_hand_the_question_ends(tmp_path: Path):
    """A question that would take hours is ended by what the telling raises, and the connection asks on."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    with make_engines(f"sqlite:///{tmp_path}/one.sqlite3").reading.connect() as connection:
        endless = text(_COUNT.format(10**12))
        with pytest.raises(KeyboardInterrupt):
            said_beside(connection, stopped, "numbers", lambda: connection.execute(endless).scalar_one())
        assert connection.execute(text(_COUNT.format(10))).scalar_one() == 10


def test_what_goes_wrong_beside_is_raised(tmp_path: Path):
    """A question that fails, even by running out of its own time, fails here too."""

    def failing() -> None:
        raise TimeoutError("its own")

    engine = make_engines(f"sqlite:///{tmp_path}/one.sqlite3").reading
    with engine.connect() as connection, pytest.raises(TimeoutError, match="its own"):
        said_beside(connection, lambda *_: None, "numbers", failing)
