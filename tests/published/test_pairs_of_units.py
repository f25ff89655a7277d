"""Figures that outside sources print in two units side by side; the second is the first read by our units.

A source rounds its second figure, so each is met to the last digit printed, or nearly 1 % where it rounds to a step of
its own. One line per source, each read in an excerpt or a copy; no table is carried over, only the pairs themselves.
"""

import pytest

from server.physics.units import read_quantity

PRINTED = {
    "AWS G2.4:2014, gas quality": [("-58 °F", "°C", -50.0, 0.05), ("1000 psi", "kPa", 6895.0, 0.5)],
    "trade-magazine article on TIG welding titanium tubing, gas and flow": [("20 cfh", "L/min", 9.4, 0.05)],
    "purge post in a welders' forum": [("20 L/min", "ft3/h", 42.0, 0.5), ("5 L/min", "ft3/h", 10.6, 0.05)],
    "Hughes & Matthews, A Quick Guide to Welding and Weld Inspection, p. 55": [("800 °F", "°C", 427.0, 0.5)],
    "filler page on holding gas": [("600 °F", "°C", 315.0, 1.0)],
    "wire seller's page on cleaning titanium": [("600 °F", "°C", 316.0, 0.5), ("800 °F", "°C", 427.0, 0.5)],
    "AMS 4943L / 4944H / 4945H": [("600 °F", "°C", 316.0, 0.5)],
    "3Al-2.5V alloy seller's data sheet": [("125 ksi", "MPa", 862.0, 0.5), ("105 ksi", "MPa", 724.0, 0.5)],
    "ASTM B338, older edition, minimum strengths": [
        *(("35 ksi", "MPa", 240.0, 2.4), ("50 ksi", "MPa", 345.0, 0.5), ("65 ksi", "MPa", 450.0, 4.5)),
        *(("90 ksi", "MPa", 620.0, 0.6), ("70 ksi", "MPa", 483.0, 0.5)),
    ],
    "tube seller's page, minimum strengths by grade": [
        *(("130 ksi", "MPa", 895.0, 9.0), ("120 ksi", "MPa", 828.0, 1.0), ("110 ksi", "MPa", 759.0, 1.0)),
    ],
    "AWS D17.1:2017-AMD2, annex": [
        *(("0.010 in", "mm", 0.25, 0.005), ("0.100 in", "mm", 2.5, 0.05), ("0.030 in", "mm", 0.76, 0.005)),
    ],
    "NAVSEA S9074-AR-GIB-010/278, pp. 187, 206, 208": [
        *(("500 °F", "°C", 260.0, 0.05), ("3/16 in", "mm", 4.8, 0.05)),
        *(("1/32 in", "mm", 0.8, 0.05), ("1 in", "mm", 25.0, 0.5)),
    ],
    "ASME IX QW-452 and QW-452.3, copies": [
        *(("2-7/8 in", "mm", 73.0, 0.5), ("1 in", "mm", 25.0, 0.5), ("1/2 in", "mm", 13.0, 0.5)),
    ],
    "29 CFR 1910.252(c)": [
        *(("10000 ft3", "m3", 284.0, 1.0), ("2000 ft3/min", "m3/min", 57.0, 0.5)),
        *(("16 ft", "m", 5.0, 0.15), ("100 ft/min", "m/min", 30.0, 0.5)),
    ],
    "29 CFR 1910.101(b) and CGA P-1, on sellers' safety notes": [("20 ft", "m", 6.0, 0.1)],
}
ROWS = [(source, *pair) for source, pairs in PRINTED.items() for pair in pairs]


@pytest.mark.parametrize(("source", "written", "unit", "printed", "rounding"), ROWS)
def test_a_printed_pair(source, written, unit, printed, rounding):
    """The figure in the source's first unit, read by us, is the one it prints in its second, to its rounding."""
    assert read_quantity(source, written, unit) == pytest.approx(printed, abs=rounding)
