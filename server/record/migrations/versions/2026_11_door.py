"""What the door keeps besides: secrets somebody else chose, sessions held to change one, devices' keys, passkeys."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_door"
down_revision = "2025_01_first"
branch_labels = None
depends_on = None

_WHOLE = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Add them; what is there already was chosen by whoever has it."""
    for table, column in (("credential", "given"), ("session", "must_change")):
        op.add_column(table, sa.Column(column, sa.Boolean(), nullable=False, server_default=sa.false()))
    op.add_column("device", sa.Column("public_key", sa.String(), nullable=True))
    op.create_table(
        "passkey",
        *(sa.Column(name, sa.String(), nullable=False) for name in ("id", "person", "title")),
        sa.Column("public_key", sa.LargeBinary(), nullable=False),
        sa.Column("sign_count", _WHOLE, nullable=False),
        sa.Column("made_ms", _WHOLE, nullable=False),
        sa.Column("used_ms", _WHOLE, nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_passkey"),
    )
    op.create_index("ix_passkey_person", "passkey", ["person"])


def downgrade() -> None:
    """Take them away; every passkey is gone with it."""
    op.drop_table("passkey")
    op.drop_column("device", "public_key")
    op.drop_column("session", "must_change")
    op.drop_column("credential", "given")
