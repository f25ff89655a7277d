"""The same words as for one reading, for a whole column of readings at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from server.statistics.conformity import PROOF_FACTOR, Conformity, conform
from server.statistics.errors import NotANumber, UnusableInput

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

# What each code of `conform_many` stands for, in the order of the sums that make it.
CODED = (
    Conformity.WITHIN,
    Conformity.MARGINAL,
    Conformity.OUTSIDE_NOT_PROVED,
    Conformity.OUTSIDE,
    Conformity.UNKNOWN,
)
# Blocks that stay in the processor's own memory halve the time of one long pass.
_BLOCK = 16_384


def conform_many(
    values: ArrayLike, low: float | None, high: float | None, standard_uncertainties: ArrayLike | None
) -> NDArray[np.int8]:
    """Judge a column of readings against one limit; `CODED[code]` gives the word of each.

    Equation: as `conform`, reading by reading.
    Inputs: values, low, high, standard_uncertainties (one, one per reading, or None) [the limit's unit].
    Result: codes into CODED [1].
    Example:
        >>> [CODED[code].word for code in conform_many([42.0, 47.0, 51.0], None, 50.0, 2.5)]
        ['within', 'marginal', 'outside']

    Range and traps: One NaN refuses the column and names its place, so drop missing readings first.
    Source: JCGM 106:2012 clause 8 (guard bands).
    """
    import numpy as np

    conform(0.0, low, high, None)
    column = _column("values", values)
    if standard_uncertainties is None:
        return np.where(_room(column, low, high) >= 0.0, np.int8(4), np.int8(2))
    doubts = _doubts(standard_uncertainties, column)
    codes = np.empty(column.shape, dtype=np.int8)
    for start in range(0, column.size, _BLOCK):
        block = slice(start, start + _BLOCK)
        codes[block] = _codes(_room(column[block], low, high), doubts[block])
    if low is not None and high is not None:
        codes[(codes == 0) & (high - low < 4.0 * doubts)] = 1
    return codes


def _codes(room: NDArray[np.float64], doubts: NDArray[np.float64]) -> NDArray[np.int8]:
    """Count how many of the three thresholds each reading has crossed: guard, limit, proof."""
    import numpy as np

    guard = PROOF_FACTOR * doubts
    beyond = room < 0.0
    codes = (room < guard).view(np.int8) + beyond.view(np.int8)
    codes += (beyond & (room + guard <= 0.0)).view(np.int8)
    return codes


def _room(values: NDArray[np.float64], low: float | None, high: float | None) -> NDArray[np.float64]:
    """How far each reading lies inside the nearer limit; negative beyond it."""
    import numpy as np

    above_low = np.inf if low is None else values - low
    below_high = np.inf if high is None else high - values
    return np.minimum(above_low, below_high)


def _column(field: str, numbers: ArrayLike) -> NDArray[np.float64]:
    """The numbers as one column, refused by the place of the first that is none."""
    import numpy as np

    column = np.atleast_1d(np.asarray(numbers, dtype=float))
    finite = np.isfinite(column)
    if not finite.all():
        place = int(finite.argmin())
        raise NotANumber(f"{field}[{place}]", float(column[place]), "a finite number", "Leave out what is missing.")
    return column


def _doubts(standard_uncertainties: ArrayLike, column: NDArray[np.float64]) -> NDArray[np.float64]:
    """One standard uncertainty per reading, refused by the place of the first below zero."""
    import numpy as np

    field = "standard_uncertainties"
    doubts = _column(field, standard_uncertainties)
    if doubts.size not in (1, column.size):
        raise UnusableInput(field, doubts.size, f"1 or {column.size} of them", "Give one for all or one for each.")
    if doubts.min(initial=0.0) < 0.0:
        place = int(doubts.argmin())
        raise UnusableInput(f"{field}[{place}]", float(doubts[place]), "0 or more", "Correct the certificate.")
    return np.broadcast_to(doubts, column.shape)
