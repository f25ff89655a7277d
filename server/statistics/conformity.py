"""Whether a reading meets its limit, and whether the instrument can tell."""

from __future__ import annotations

from enum import Enum
from math import inf, isfinite
from sys import float_info

from server.statistics.errors import NotANumber, UnusableInput, ZeroWidthLimit

PROOF_FACTOR = 1.645


class Conformity(Enum):
    """What one reading says about one limit; `word` is the verdict, `proved` whether the instrument can tell."""

    WITHIN = ("within", True)
    MARGINAL = ("marginal", False)
    OUTSIDE = ("outside", True)
    OUTSIDE_NOT_PROVED = ("outside", False)
    UNKNOWN = ("unknown", False)

    @property
    def word(self) -> str:
        """The verdict: within, marginal, outside or unknown."""
        return self.value[0]

    @property
    def proved(self) -> bool:
        """Whether the reading is further from the limit than the instrument's doubt."""
        return self.value[1]


# Bound once, because reaching through the class costs more than the arithmetic when millions are judged.
_WITHIN, _MARGINAL, _OUTSIDE, _NOT_PROVED, _UNKNOWN = Conformity
_WIDE_ENOUGH = 4.0
_OPEN = float_info.max


def conform(
    value: float,
    low: float | None,
    high: float | None,
    standard_uncertainty: float | None,
    proof_factor: float = PROOF_FACTOR,
) -> Conformity:
    """Say whether one reading is within, marginal, outside or unknown against a lower limit, an upper one or both.

    Equation: room = min(value − low, high − value); within from room ≥ 1.645 u, outside below 0, marginal between;
        outside is proved from −room ≥ 1.645 u.
    Inputs: value, low, high, standard_uncertainty u [all in the limit's unit]; proof_factor [1]; None = not there.
    Result: a Conformity [word].
    Example:
        >>> [conform(ppm, None, 50.0, 2.5).word for ppm in (42.0, 47.0, 51.0)]
        ['within', 'marginal', 'outside']

    Range and traps: On the limit counts as inside. Without u, inside is unknown and beyond is outside, not proved.
        Between limits closer than 4 u no reading is within, since one-sided proof at each does not add up to 95 %.
    Source: JCGM 106:2012 clause 8 (guard bands); 1.645 = one-sided 95 % of a normal curve.
    """
    if high is None:
        room, width = (value - low, _OPEN) if low is not None else _refuse(value, low, high, standard_uncertainty)
    elif low is None:
        room, width = high - value, _OPEN
    else:
        above_low, below_high, width = value - low, high - value, high - low
        room = above_low if above_low < below_high else below_high
    doubt = 0.0 if standard_uncertainty is None else standard_uncertainty
    if not (-inf < room < inf and 0.0 < width < inf and 0.0 <= doubt < inf):
        _refuse(value, low, high, standard_uncertainty)
    guard = proof_factor * doubt
    if room >= 0.0:
        if standard_uncertainty is None:
            return _UNKNOWN
        return _WITHIN if room >= guard and width >= _WIDE_ENOUGH * doubt else _MARGINAL
    return _OUTSIDE if standard_uncertainty is not None and -room >= guard else _NOT_PROVED


def _refuse(value: float, low: float | None, high: float | None, doubt: float | None) -> tuple[float, float]:
    """Name what makes a comparison impossible; apart, so that the way taken millions of times stays short."""
    named = {"value": value, "low": low, "high": high, "standard_uncertainty": doubt}
    for field, number in named.items():
        if number is not None and not isfinite(number):
            raise NotANumber(field, number, "a finite number", "Leave out what is not there; correct what is.")
    if low is None and high is None:
        raise UnusableInput("low and high", None, "a limit on one side at least", "Without one, nothing was asked.")
    if low is not None and high is not None and low >= high:
        raise ZeroWidthLimit("low", low, f"a number below high, {high!r}", "Correct the limit in its procedure.")
    raise UnusableInput("standard_uncertainty", doubt, "0 or more", "Correct it on the instrument's certificate.")
