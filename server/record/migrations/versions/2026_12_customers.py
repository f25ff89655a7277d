"""A customer's details beside the sealed lines, so that they can be removed; what was told before stays as it is."""

import sqlalchemy as sa
from alembic import op

revision = "2026_12_customers"
down_revision = "2026_11_door"
branch_labels = None
depends_on = None

_WHOLE = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_TABLE = "customer_details"


def upgrade() -> None:
    """Add the table."""
    op.create_table(
        _TABLE,
        sa.Column("position", _WHOLE, nullable=False, autoincrement=False),
        sa.Column("customer", sa.String(), nullable=False),
        *(sa.Column(name, sa.LargeBinary(), nullable=True) for name in ("salt", "details")),
        *(sa.Column(name, _WHOLE, nullable=True) for name in ("removed_by", "removed_ms")),
        *(
            sa.ForeignKeyConstraint([name], ["line.position"], name=f"fk_{_TABLE}_{name}")
            for name in ("position", "removed_by")
        ),
        sa.PrimaryKeyConstraint("position", name=f"pk_{_TABLE}"),
    )
    op.create_index(f"ix_{_TABLE}_customer", _TABLE, ["customer"])


def downgrade() -> None:
    """Refuse: without the table the sealed digests of customers would stand for nothing."""
    raise RuntimeError("the details of customers stand in this table and nowhere else; there is no step before it")
