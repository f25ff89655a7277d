"""Customers stand one under the other as people count them."""

from server.record.book_of_lines import Record
from server.work.customer_sheet import customer_sheets
from tests.work.small_shop import tell


def test_customers_stand_by_number(record: Record):
    """As people count: 2 and 9 before 10."""
    for number in ("CU-10", "CU-9", "CU-2"):
        tell(record, kind="customer", id=number, name="Bea Other", address="2 Other Lane")
    with record.reads() as reads:
        assert [each.customer.id for each in customer_sheets(reads.registers())] == ["CU-2", "CU-9", "CU-10"]
