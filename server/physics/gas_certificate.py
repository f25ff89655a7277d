"""Whether an oxygen reading can be true beside the certificate of the gas it was taken in."""

from __future__ import annotations

from typing import NamedTuple

from server.physics.inputs import between

PROOF_FACTOR = 1.645


class PossibleReading(NamedTuple):
    """Whether a reading is possible, None when nobody can tell, and the sentence that says why."""

    possible: bool | None
    because: str


def reading_possible(
    reading_ppm: float, reading_doubt_ppm: float | None, certificate_ppm: float | None
) -> PossibleReading:
    """Whether an oxygen reading in a purge can be true, given what its gas brings along.

    Equation: impossible when certificate − reading > 1.645 u
    Inputs: reading_ppm [ppm]; reading_doubt_ppm, its standard uncertainty u [ppm], None when not on file;
        certificate_ppm, the oxygen that the gas's certificate reports [ppm], None when there is none.
    Result: a PossibleReading: True, False or None, and why.
    Example:
        >>> reading_possible(reading_ppm=0.0, reading_doubt_ppm=1.0, certificate_ppm=2.0).because
        'Impossible: 0 ppm is 2 ppm below the 2 ppm its gas brings along, and the analyser is sure to 1.645 ppm.'

    Range and traps: A purge cannot be cleaner than its gas, so such a reading tells of the analyser or the sample line,
        not of the purge. It holds for a certificate that reports what was measured; one that promises "at most 2 ppm"
        allows less, and then the reading says nothing. Without u nobody can tell.
    Source: conservation of oxygen; 1.645 = one-sided 95 % of a normal curve (JCGM 106:2012).
    """
    read_ppm = between("reading_ppm", reading_ppm, -1e6, 1e6)
    if certificate_ppm is None or reading_doubt_ppm is None:
        missing = "certificate's oxygen" if certificate_ppm is None else "analyser's uncertainty"
        return PossibleReading(None, f"Nobody can tell: the {missing} is not on file.")
    gas_ppm = between("certificate_ppm", certificate_ppm, 0.0, 1e6)
    sure_ppm = PROOF_FACTOR * between("reading_doubt_ppm", reading_doubt_ppm, 0.0, 1e6)
    below_ppm = gas_ppm - read_ppm
    if below_ppm > sure_ppm:
        gap = f"{read_ppm:g} ppm is {below_ppm:g} ppm below the {gas_ppm:g} ppm its gas brings along"
        return PossibleReading(False, f"Impossible: {gap}, and the analyser is sure to {sure_ppm:g} ppm.")
    return PossibleReading(
        True, f"Possible beside {gas_ppm:g} ppm in the gas, as the analyser is sure to {sure_ppm:g} ppm."
    )
