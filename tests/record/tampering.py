"""Somebody with the file in their hands: guards dropped, rows changed, and nothing said."""

import sqlite3
from contextlib import closing
from pathlib import Path

from server.record.details_guards import details_guard_names
from server.record.guards import APPEND_ONLY


def tamper(file: Path, *statements: str, put_guards_back: bool = True) -> None:
    """Run the statements on the file with every guard out of the way, and put the guards back as they were."""
    with closing(sqlite3.connect(file)) as other:
        guards = [sql for (sql,) in other.execute("SELECT sql FROM sqlite_master WHERE type = 'trigger'")]
        names = [name for (name,) in other.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")]
        for name in names:
            other.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            changed = other.execute(statement).rowcount
            assert changed, f"nothing was changed by {statement}"
        for sql in guards if put_guards_back else ():
            other.execute(sql)
        other.commit()
    assert len(names) == 3 * len(APPEND_ONLY) + len(details_guard_names("sqlite"))
