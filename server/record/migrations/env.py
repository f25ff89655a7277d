"""Runs the steps of the schema in one transaction, and puts the guards back behind them."""

from alembic import context

from server.record.guards import put_guards
from server.record.tables.columns import LINE_TABLE

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=LINE_TABLE.metadata,
    render_as_batch=connection.dialect.name == "sqlite",
)
with context.begin_transaction():
    context.run_migrations()
put_guards(connection)
