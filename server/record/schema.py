"""Whether a database has the schema this program speaks, and how it comes by it."""

from pathlib import Path

from sqlalchemy import Connection, inspect

from server.record.engines import migrating_engine
from server.record.guards import missing_guards
from server.record.troubles import RecordUnfit

REVISION = "2026_12_tablets"
"""The newest step; compared in plain SQL at every start, so that Alembic is loaded only to change something."""

_STEPS = Path(__file__).parent / "migrations"


def revision_of(connection: Connection) -> str | None:
    """Give the step a database stands at; none when it is empty."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar_one_or_none()


def bring_up_to_date(url: str) -> None:
    """Run the steps a database is missing, all of them for an empty one."""
    from alembic import command
    from alembic.config import Config

    engine = migrating_engine(url)
    config = Config()
    config.set_main_option("script_location", str(_STEPS))
    try:
        with engine.begin() as connection:
            config.attributes["connection"] = connection
            command.upgrade(config, "head")
    finally:
        engine.dispose()


def look_at(connection: Connection) -> None:
    """Refuse a database that has another schema, or whose append-only tables are not guarded."""
    found = revision_of(connection)
    if found != REVISION:
        raise RecordUnfit(
            f"the record's schema is {found!r}, this program speaks {REVISION!r}; "
            "make a backup, then run the command migrate of this program's version"
        )
    if missing := missing_guards(connection):
        raise RecordUnfit(
            f"the record's guard {missing[0]} is missing or altered ({len(missing)} in all), so recorded lines could "
            "be changed; run check-record, and migrate to put the guards back"
        )
