"""The question for the registers as known at a position, at most two statements however large they are."""

from itertools import starmap

from sqlalchemy import bindparam, select

from server.facts.registers import Registers
from server.record.asking import Asking
from server.record.envelope import SEAL
from server.record.keeping_details import KeptDetails
from server.record.known_registers import at_position, carried_on
from server.record.tables.columns import DETAILS, DETAILS_TABLE, LINE, LINE_TABLE
from server.record.tables.sealed import TOLD

_KEPT = tuple(DETAILS[name] for name in KeptDetails._fields)
_TOLD_BETWEEN = (
    select(LINE.position, LINE.body, *_KEPT)
    .select_from(LINE_TABLE.outerjoin(DETAILS_TABLE, DETAILS.position == LINE.position))
    .where(TOLD, LINE.kind != SEAL, LINE.position > bindparam("after"), LINE.position <= bindparam("position"))
    .order_by(LINE.position)
)


class RegisterReads(Asking):
    """The registers."""

    def registers(self, known_at: int | None = None) -> Registers:
        """Give the registers as known at a position, or as known now."""
        position = self._no_later(known_at)
        remembered = self._remembered.registers
        turn = None if self._kept is None else self._connection.get_transaction()
        state = remembered.nearest(position, turn)
        between = {"after": state.known_at, "position": position}
        if rows := self._connection.execute(_TOLD_BETWEEN, between).all():
            details = {position: KeptDetails(*kept) for position, _, *kept in rows if kept[0] is not None}
            before = state
            state = carried_on(before, [(position, body) for position, body, *_ in rows], details)
            if len(state.customer_removals) > len(before.customer_removals):
                self._remembered.shop.forget()
            # What the writer has not committed yet may be taken back, so nobody else may come to know it.
            if self._kept is None or state.known_at <= self._kept:
                remembered.keep(state)
            elif turn is not None:
                remembered.keep_for(turn, state)
        return at_position(state, position)

    def customer_details(self) -> list[KeptDetails]:
        """Give the details of every customer as they were told, and the marks of those that were removed."""
        asked = select(*_KEPT).order_by(DETAILS.position)
        return list(starmap(KeptDetails, self._connection.execute(asked)))
