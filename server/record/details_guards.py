"""The guards on the customers' details: rows are added with their sealed line, and emptied only by a signed one."""

from collections.abc import Iterator

from sqlalchemy import Connection, inspect

TABLE = "customer_details"
REMOVAL = "details removed"
_KEPT = "stand as they were told; a signed line that removes them empties their row, and nothing else changes it"
_TOLD = f"""NEW.salt IS NOT NULL AND NEW.details IS NOT NULL AND NEW.removed_by IS NULL AND NEW.removed_ms IS NULL
    AND EXISTS (SELECT 1 FROM line WHERE position = NEW.position AND kind = 'customer number' AND id = NEW.customer)
    AND NOT EXISTS (SELECT 1 FROM {TABLE} WHERE customer = NEW.customer AND removed_by IS NOT NULL)"""  # noqa: S608
"""How a row comes in: whole, with its line, and of no number whose details were removed."""
_EMPTIED = f"""OLD.removed_by IS NULL AND NEW.position = OLD.position AND NEW.customer = OLD.customer
    AND NEW.salt IS NULL AND NEW.details IS NULL AND NEW.removed_ms IS NOT NULL
    AND EXISTS (SELECT 1 FROM line WHERE position = NEW.removed_by AND kind = '{REMOVAL}'
        AND id = NEW.customer || '/' || NEW.removed_by)"""  # noqa: S608
"""How a row is emptied: once, by the sealed line that says so of this customer."""


def removal_id(customer: str, position: int) -> str:
    """Give the id of the line that removes a customer's details, by which the guard knows it."""
    return f"{customer}/{position}"


def details_stand_apart(connection: Connection) -> bool:
    """Say whether a record has the table already; one of before keeps the details in its lines."""
    return inspect(connection).has_table(TABLE)


def details_guard_names(dialect: str) -> list[str]:
    """Name the guards of one engine."""
    acts = ("no_stray", "no_replace", "no_update", "no_delete") if dialect == "sqlite" else ("no_change", "no_truncate")
    return [f"{TABLE}_{act}" for act in acts]


def details_guards(dialect: str) -> Iterator[str]:
    """Give the statements that put them in place anew."""
    yield from _sqlite() if dialect == "sqlite" else _postgres()


def _sqlite() -> Iterator[str]:
    refuse = f"BEGIN SELECT RAISE(ABORT, '{TABLE} {_KEPT}'); END"
    for name in details_guard_names("sqlite"):
        yield f"DROP TRIGGER IF EXISTS {name}"
    there = f"EXISTS (SELECT 1 FROM {TABLE} WHERE position = NEW.position)"  # noqa: S608
    yield f"CREATE TRIGGER {TABLE}_no_stray BEFORE INSERT ON {TABLE} WHEN NOT ({_TOLD}) {refuse}"
    yield f"CREATE TRIGGER {TABLE}_no_replace BEFORE INSERT ON {TABLE} WHEN {there} {refuse}"
    yield f"CREATE TRIGGER {TABLE}_no_update BEFORE UPDATE ON {TABLE} WHEN NOT ({_EMPTIED}) {refuse}"
    yield f"CREATE TRIGGER {TABLE}_no_delete BEFORE DELETE ON {TABLE} {refuse}"


def _postgres() -> Iterator[str]:
    yield (
        "CREATE OR REPLACE FUNCTION keep_details() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
        f"IF TG_OP = 'INSERT' THEN IF {_TOLD} THEN RETURN NEW; END IF; "
        f"ELSIF TG_OP = 'UPDATE' THEN IF {_EMPTIED} THEN RETURN NEW; END IF; END IF; "
        f"RAISE EXCEPTION USING MESSAGE = TG_TABLE_NAME || ' {_KEPT}'; END $$"
    )
    each = f"ON {TABLE} FOR EACH ROW EXECUTE FUNCTION keep_details()"
    yield f"CREATE OR REPLACE TRIGGER {TABLE}_no_change BEFORE INSERT OR UPDATE OR DELETE {each}"
    yield (
        f"CREATE OR REPLACE TRIGGER {TABLE}_no_truncate BEFORE TRUNCATE ON {TABLE} "
        "FOR EACH STATEMENT EXECUTE FUNCTION keep_details()"
    )
