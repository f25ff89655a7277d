"""An index by which a tablet's lines that tell nothing of its clock are found without walking through others."""

import sqlalchemy as sa
from alembic import op

revision = "2026_12_tablets"
down_revision = "2026_12_reading"
branch_labels = None
depends_on = None

_UNCLOCKED = sa.text(
    "NOT (kind = 'entry' AND state IN ('taken', 'taken before') AND boot IS NOT NULL AND mono_ms IS NOT NULL "
    "AND device_ms IS NOT NULL)"
)


def upgrade() -> None:
    """Make it."""
    columns = ["device", "kind", "seq", "received_ms"]
    op.create_index("ix_line_unclocked", "line", columns, sqlite_where=_UNCLOCKED, postgresql_where=_UNCLOCKED)


def downgrade() -> None:
    """Take it away."""
    op.drop_index("ix_line_unclocked", table_name="line")
