"""Makes rows for the evidence room of what stands in the file, whatever somebody may have left there."""

from server.evidence.chains import ChainHead
from server.evidence.stored import StoredLink, StoredRow
from server.record.lines import StoredLine
from server.record.odd_columns import Links


def row_of(line: StoredLine, links: Links) -> StoredRow:
    """Give a line with its chain places as the evidence room looks at it."""
    placed = tuple(StoredLink(subject, place.number, place.head) for subject, place in links)
    return StoredRow(line.position, line.id, line.envelope, line.leaf, placed)


def line_in_bytes(line: StoredLine) -> StoredLine:
    """Give a line whose bytes are bytes."""
    return line._replace(
        body=in_bytes(line.body),
        body_sha256=in_bytes(line.body_sha256),
        envelope=in_bytes(line.envelope),
        leaf=in_bytes(line.leaf),
    )


def links_in_bytes(links: Links) -> Links:
    """Give chain places whose heads are bytes."""
    return [(subject, ChainHead(place.number, in_bytes(place.head))) for subject, place in links]


def in_bytes(stored: object) -> bytes:
    """Give bytes as they are; SQLite keeps whatever it is given, so altered ones may be a text or a number."""
    return stored if isinstance(stored, bytes) else str(stored).encode()
