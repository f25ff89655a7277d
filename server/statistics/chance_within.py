"""The chance that the true value lies between limits, given a reading and its doubt."""

from __future__ import annotations

from math import erfc, sqrt

from server.statistics.conformity import conform
from server.statistics.errors import UnusableInput
from server.statistics.inputs import proportion
from server.statistics.quantiles import normal_quantile


def chance_within(value: float, low: float | None, high: float | None, standard_uncertainty: float) -> float:
    """Give the chance that what was measured truly lies within the limits.

    Equation: p = Φ((high − value)/u) − Φ((low − value)/u), a missing limit lying at infinity.
    Inputs: value, low, high, standard_uncertainty u [all in the limit's unit].
    Result: the chance [1].
    Example:
        >>> round(chance_within(42.0, None, 50.0, 2.5), 4)
        0.9993

    Range and traps: u above 0, errors normal, nothing else known of the part; it is not the chance of a sound weld.
    Source: JCGM 106:2012 clause 7.
    """
    conform(value, low, high, standard_uncertainty)
    if standard_uncertainty == 0.0:
        raise UnusableInput("standard_uncertainty", 0.0, "above 0", "Without doubt there is no chance to reckon.")
    scale = sqrt(2.0) * standard_uncertainty
    below = 0.0 if low is None else erfc((value - low) / scale) / 2.0
    above = 0.0 if high is None else erfc((high - value) / scale) / 2.0
    return max(0.0, 1.0 - below - above)


def proof_factor(certainty: float) -> float:
    """Give the number of standard uncertainties to stay off a limit for a one-sided certainty.

    Equation: z = Φ⁻¹(certainty).
    Inputs: certainty [1].
    Result: z [1].
    Example:
        >>> round(proof_factor(0.95), 3)
        1.645

    Range and traps: 0 < certainty < 1; below 0.5 the factor turns negative and guards nothing.
    Source: JCGM 106:2012 clause 8; any table of the normal curve.
    """
    return normal_quantile(proportion("certainty", certainty))
