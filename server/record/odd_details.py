"""Whether the customers' details that stand beside the sealed lines are those that were told, or rightly removed."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from sqlalchemy import Connection, select

from server.evidence.salted import fits, salted_digest
from server.facts.customers import CustomerNumber, DetailsRemoved
from server.facts.moment import show_moment
from server.record.details_guards import REMOVAL, TABLE, details_stand_apart
from server.record.keeping_details import KeptDetails
from server.record.stored_rows import in_bytes
from server.record.tables.columns import DETAILS, LINE
from server.record.tables.sealed import TOLD

_NUMBER = "customer number"
_TOLD_OF = (
    select(LINE.position, LINE.kind, LINE.body).where(TOLD, LINE.kind.in_((_NUMBER, REMOVAL))).order_by(LINE.position)
)


class _Sealed(NamedTuple):
    numbers: dict[int, CustomerNumber]
    removals: dict[int, DetailsRemoved]


def odd_details(connection: Connection) -> list[str]:
    """Name the customers whose details were altered, taken away or put in, each by number and position."""
    odd: list[str] = []
    sealed = _sealed(connection, odd)
    if not details_stand_apart(connection):
        return [*odd, f"the table {TABLE} is missing: nothing stands beside the lines"] if sealed.numbers else odd
    asked = select(*(DETAILS[name] for name in KeptDetails._fields)).order_by(DETAILS.position)
    kept = {row[0]: KeptDetails(*row) for row in connection.execute(asked)}
    odd += [slip for each in kept.values() if (slip := _odd_row(each, sealed))]
    odd += [f"{_of(each.id, at)} are missing" for at, each in sealed.numbers.items() if at not in kept]
    return [*odd, *_not_removed(kept, sealed)]


def _sealed(connection: Connection, odd: list[str]) -> _Sealed:
    found = _Sealed({}, {})
    for position, kind, body in connection.execute(_TOLD_OF):
        try:
            if kind == _NUMBER:
                found.numbers[position] = CustomerNumber.model_validate_json(in_bytes(body))
            else:
                found.removals[position] = DetailsRemoved.model_validate_json(in_bytes(body))
        except ValueError:
            odd.append(f"position {position}: the {kind} can no longer be read")
    return found


def _odd_row(kept: KeptDetails, sealed: _Sealed) -> str | None:
    told = sealed.numbers.get(kept.position)
    of = _of(kept.customer, kept.position)
    if told is None or told.id != kept.customer:
        return f"{of} stand beside no line that tells that number"
    if kept.removed_by is None:
        details, salt = in_bytes(kept.details), in_bytes(kept.salt)
        if fits(details, salt, told.details_hmac_sha256):
            return None
        found = salted_digest(details, salt)[:16]
        return f"{of} are altered: their HMAC-SHA-256 is {found}..., sealed is {told.details_hmac_sha256[:16]}..."
    return _wrongly_emptied(kept, sealed.removals, of)


def _wrongly_emptied(kept: KeptDetails, removals: Mapping[int, DetailsRemoved], of: str) -> str | None:
    removal = removals.get(kept.removed_by or 0)
    if removal is None or removal.customer != kept.customer or removal.at != kept.removed_ms:
        said = show_moment(kept.removed_ms) if isinstance(kept.removed_ms, int) else kept.removed_ms
        return f"{of} were emptied by no signed line: named are position {kept.removed_by} and {said}"
    if kept.salt is not None or kept.details is not None:
        return f"{of} are marked as removed by position {kept.removed_by} and still hold something"
    return None


def _not_removed(kept: Mapping[int, KeptDetails], sealed: _Sealed) -> Iterator[str]:
    removed_at = {removal.customer: at for at, removal in sealed.removals.items()}
    for each in kept.values():
        if each.removed_by is None and (at := removed_at.get(each.customer)):
            yield f"{_of(each.customer, each.position)} still stand, though position {at} removed them"


def _of(customer: str, position: int) -> str:
    return f"the details of customer {customer}, position {position},"
