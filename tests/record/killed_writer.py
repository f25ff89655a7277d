"""A program that appends for ever and says of each line that it was kept; its test kills it."""

import sys

from server.record.book_of_lines import Record
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def main(url: str, first: int) -> None:
    """Append entry after entry from a number on, saying each number once it is kept."""
    record = Record.open(url)
    number = first
    while True:
        several = [new_entry(number + more) for more in range(3)]
        append(record, *several)
        print(*range(number, number + 3), flush=True)
        number += 3


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
