"""What every table shares: one metadata whose constraints have names, so that a later migration can find them."""

from typing import ClassVar

from sqlalchemy import BigInteger, Integer, MetaData
from sqlmodel import SQLModel

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}

# SQLite numbers rows by itself only where the column type is exactly INTEGER.
WHOLE = BigInteger().with_variant(Integer, "sqlite")


class Row(SQLModel):
    """A row of any table of the record; rows are written and read by columns, never kept in a session."""

    metadata: ClassVar[MetaData] = MetaData(naming_convention=NAMES)
