"""Indexes by which a page finds a frame's entries of one kind, and a device's boots, without walking through others."""

import sqlalchemy as sa
from alembic import op

revision = "2026_12_reading"
down_revision = "2026_12_customers"
branch_labels = None
depends_on = None

_CLOCKED = sa.text(
    "kind = 'entry' AND state IN ('taken', 'taken before') AND boot IS NOT NULL AND mono_ms IS NOT NULL "
    "AND device_ms IS NOT NULL"
)


def upgrade() -> None:
    """Make them, and take away the two they stand in for."""
    op.create_index("ix_line_frame_entry_kind_position", "line", ["frame", "entry_kind", "position"])
    clock = ["device", "boot", "seq", "received_ms"]
    op.create_index("ix_line_clock", "line", clock, sqlite_where=_CLOCKED, postgresql_where=_CLOCKED)
    op.create_index("ix_judged_to_book_position", "judged_to", ["book", "position"])
    op.drop_index("ix_line_frame_position", table_name="line")
    op.drop_index("ix_judged_to_book", table_name="judged_to")


def downgrade() -> None:
    """Put the earlier ones back."""
    op.create_index("ix_judged_to_book", "judged_to", ["book"])
    op.create_index("ix_line_frame_position", "line", ["frame", "position"])
    op.drop_index("ix_judged_to_book_position", table_name="judged_to")
    op.drop_index("ix_line_clock", table_name="line")
    op.drop_index("ix_line_frame_entry_kind_position", table_name="line")
