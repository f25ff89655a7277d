"""Whether a line or a chain's place stands where none can stand: before the first position, or behind the last."""

from collections.abc import Iterator

from sqlalchemy import Connection, func, or_, select

from server.record.tables.columns import FINDING, JUDGED_TO, LINE, LINK, VERDICT

_FEW = 20
_JUDGED = {"verdicts": VERDICT.known_at, "findings": FINDING.known_at, "how far it is judged": JUDGED_TO.position}


def odd_places(connection: Connection) -> Iterator[str]:
    """Name lines before the first position, which no walk from the first on comes by, and places of no line."""
    yield from lines_before_the_first(connection)
    last = _last(connection)
    stray = select(LINK.kind, LINK.id, LINK.number, LINK.position).where(or_(LINK.position < 1, LINK.position > last))
    for kind, name, number, position in connection.execute(stray.limit(_FEW)):
        yield f"{kind} {name}, number {number}: names position {position}, where no line can stand; it was put in"
    for what, column in _JUDGED.items():
        if (furthest := connection.execute(select(func.max(column))).scalar() or 0) > last:
            said = f"{what}: reaches to position {furthest}, but the record ends at {last}"
            yield f"{said}; lines were cut off, or it was put in"


def lines_before_the_first(connection: Connection) -> Iterator[str]:
    """Name lines whose position is below 1; by the key, so it costs next to nothing."""
    before = select(LINE.position, LINE.id).where(LINE.position < 1).order_by(LINE.position)
    for position, name in connection.execute(before.limit(_FEW)):
        yield f"entry at position {position}, id {name}: stands before the first position; it was put in"


def _last(connection: Connection) -> int:
    return connection.execute(select(func.max(LINE.position))).scalar() or 0
