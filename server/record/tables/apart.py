"""What stands beside the sealed lines and may be emptied by a signed line: the details of customers."""

from sqlmodel import Field

from server.record.tables.row import WHOLE, Row


class CustomerDetailsRow(Row, table=True):
    """One customer's details as told at one position, with their salt; emptied, it says when and by which line."""

    __tablename__ = "customer_details"

    position: int = Field(
        primary_key=True, foreign_key="line.position", sa_type=WHOLE, sa_column_kwargs={"autoincrement": False}
    )
    customer: str = Field(index=True)
    salt: bytes | None = None
    details: bytes | None = None
    removed_by: int | None = Field(default=None, foreign_key="line.position", sa_type=WHOLE)
    removed_ms: int | None = Field(default=None, sa_type=WHOLE)
