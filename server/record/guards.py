"""The guards on append-only tables: triggers that refuse to change, remove or replace what was recorded."""

from collections.abc import Iterator
from functools import cache

from sqlalchemy import Connection

from server.record.details_guards import details_guard_names, details_guards, details_stand_apart

_FIRST = "kind = 'entry' AND state IN ('taken', 'taken, not understood')"

APPEND_ONLY: dict[str, tuple[str, ...]] = {
    "line": ("position = NEW.position", f"id = NEW.id AND {_FIRST} AND NEW.{_FIRST.replace('state', 'NEW.state')}"),
    "subject_link": ("kind = NEW.kind AND id = NEW.id AND number = NEW.number",),
    "checkpoint": ("size = NEW.size",),
    "verdict": ("number = NEW.number",),
    "finding": ("number = NEW.number",),
    "judged_to": ("number = NEW.number",),
}
"""Each append-only table with the ways a new row can collide with an old one, which a REPLACE would then remove."""

_MAKES = "CREATE TRIGGER "
_SAID = "is append-only: nothing recorded is changed; append a line that names the old one"


def put_guards(connection: Connection) -> None:
    """Put every guard in place anew; run at the end of each migration, since a table made anew has lost its own."""
    apart = details_guards(connection.dialect.name) if details_stand_apart(connection) else ()
    for statement in (*_statements(connection.dialect.name), *apart):
        connection.exec_driver_sql(statement)


def missing_guards(connection: Connection) -> list[str]:
    """Name the guards that are not there, or no longer refuse what they were put there to refuse."""
    dialect = connection.dialect.name
    there, put = _there(connection), _as_put(dialect)
    wanted = [name for table in APPEND_ONLY for name in _names(dialect, table)]
    return [name for name in (*wanted, *details_guard_names(dialect)) if there.get(name) != put[name]]


def foreign_triggers(connection: Connection) -> list[str]:
    """Name the triggers this program never put there: one can change what is written, unseen."""
    return sorted(_there(connection).keys() - _as_put(connection.dialect.name).keys())


def _there(connection: Connection) -> dict[str, str]:
    """Give each trigger with what it does: its own words on SQLite, those of its function on PostgreSQL."""
    if connection.dialect.name == "sqlite":
        asked = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
    else:
        asked = (
            "SELECT tgname, prosrc FROM pg_trigger JOIN pg_proc ON pg_proc.oid = tgfoid "
            "WHERE NOT tgisinternal AND tgenabled IN ('O', 'A')"
        )
    return {row[0]: row[1] for row in connection.exec_driver_sql(asked)}


@cache
def _as_put(dialect: str) -> dict[str, str]:
    """Give what each guard does, read from the statements that put it there."""
    statements = (*_statements(dialect), *details_guards(dialect))
    if dialect == "sqlite":
        made = (each for each in statements if each.startswith(_MAKES))
        return {each.removeprefix(_MAKES).partition(" ")[0]: each for each in made}
    words = {each.split()[4]: each.split("$$")[1] for each in statements if "$$" in each}
    put = [each.split() for each in statements if "$$" not in each]
    return {each[4]: words[each[-1]] for each in put}


def _names(dialect: str, table: str) -> list[str]:
    acts = ("update", "delete", "replace") if dialect == "sqlite" else ("change", "truncate")
    return [f"{table}_no_{act}" for act in acts]


def _statements(dialect: str) -> Iterator[str]:
    if dialect == "sqlite":
        for table, collisions in APPEND_ONLY.items():
            yield from _sqlite(table, collisions)
    else:
        yield from _postgres()


def _sqlite(table: str, collisions: tuple[str, ...]) -> Iterator[str]:
    refuse = f"BEGIN SELECT RAISE(ABORT, '{table} {_SAID}'); END"
    there = " OR ".join(f"EXISTS (SELECT 1 FROM {table} WHERE {collision})" for collision in collisions)  # noqa: S608
    for name in _names("sqlite", table):
        yield f"DROP TRIGGER IF EXISTS {name}"
    yield f"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} {refuse}"
    yield f"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} {refuse}"
    # A REPLACE removes the old row without asking the delete trigger, unless a pragma says otherwise.
    yield f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN {there} {refuse}"


def _postgres() -> Iterator[str]:
    yield (
        "CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ "
        f"BEGIN RAISE EXCEPTION USING MESSAGE = TG_TABLE_NAME || ' {_SAID}'; END $$"
    )
    for table in APPEND_ONLY:
        yield (
            f"CREATE OR REPLACE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON {table} "
            "FOR EACH ROW EXECUTE FUNCTION refuse_change()"
        )
        yield (
            f"CREATE OR REPLACE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} "
            "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
        )
